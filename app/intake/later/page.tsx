import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { currentIntakeCustomer, DRAFT_DAYS } from "@/lib/access/customer";
import { DRAFT_LINK_FIELDS } from "@/lib/inputs/customer";
import { mailDraftLink } from "../actions";
import { LinkForm } from "../link-form";

export const metadata: Metadata = { title: { absolute: "" } };

export default async function LaterPage() {
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  return (
    <main id="main" className="page column">
      <LinkForm
        title="Go on later"
        fields={DRAFT_LINK_FIELDS}
        action={mailDraftLink}
        label="Send me a link"
        back="/intake"
        sent="The link is on its way. It opens once, on any phone or computer."
      >
        <p>
          What you have told us so far is kept for {DRAFT_DAYS} days in this browser: open this site again and go on. To go on elsewhere, have a link sent to you. It is not sent to
          us before you send it.
        </p>
      </LinkForm>
    </main>
  );
}
