import type { Metadata } from "next";
import { LinkForm } from "@/app/intake/link-form";
import { CLAIM_LINK_FIELDS } from "@/lib/inputs/customer";
import { askForLink } from "./actions";

export const metadata: Metadata = { title: { absolute: "" } };

export default function FindClaimPage() {
  return (
    <main id="main" className="page column">
      <LinkForm
        title="Open your complaint"
        fields={CLAIM_LINK_FIELDS}
        action={askForLink}
        label="Send me a link"
        back="/"
        sent="If there is a complaint with this reference and address, a link to it is on its way there. It opens once."
      >
        <p>We send a link to the address you gave when you filed it.</p>
      </LinkForm>
    </main>
  );
}
