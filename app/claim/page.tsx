import type { Metadata } from "next";
import { LinkForm } from "@/app/intake/link-form";
import { currentWords } from "@/lib/access/language";
import { claimLinkFields } from "@/lib/inputs/customer";
import { sayIn } from "@/lib/messages/words";
import { askForLink } from "./actions";

export const metadata: Metadata = { title: { absolute: "" } };

export default async function FindClaimPage() {
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <LinkForm
        title={words("find.title")}
        fields={claimLinkFields(sayIn(words.language))}
        action={askForLink}
        label={words("intake.later.send")}
        back="/"
        sent={words("find.sent")}
      >
        <p>{words("find.text")}</p>
      </LinkForm>
    </main>
  );
}
