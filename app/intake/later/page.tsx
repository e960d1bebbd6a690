import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { currentWords } from "@/lib/access/language";
import { draftLinkFields } from "@/lib/inputs/customer";
import { sayIn } from "@/lib/messages/words";
import { mailDraftLink } from "../actions";
import { LinkForm } from "../link-form";

export const metadata: Metadata = { title: { absolute: "" } };

export default async function LaterPage() {
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <LinkForm
        title={words("intake.later.title")}
        fields={draftLinkFields(sayIn(words.language))}
        action={mailDraftLink}
        label={words("intake.later.send")}
        back="/intake"
        sent={words("intake.later.sent")}
      >
        <p>{words("intake.later.kept", { days: DRAFT_DAYS })}</p>
      </LinkForm>
    </main>
  );
}
