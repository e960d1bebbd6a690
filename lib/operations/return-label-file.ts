import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { loadSettings } from "@/lib/data/settings";
import type { LabelPaper } from "@/lib/domain/claims/return-label";
import { returnLabelPdf } from "@/lib/files/pdf-return-label";
import { wordsIn } from "@/lib/messages/words";
import { loadMyReturn } from "./load-my-return";

/** The label of the customer's own return as a PDF; null while there is no return, or nobody has said who sends. */
export async function makeMyLabelFile(actor: CustomerActor, paper: LabelPaper, now: Date = new Date()): Promise<{ number: string; pdf: Buffer } | null> {
  const [returned, { name }] = await Promise.all([loadMyReturn(actor), loadSettings()]);
  if (!returned?.label) return null;
  const words = wordsIn(actor.language);
  const on = {
    title: words("sendIn.label.title", { number: returned.number }),
    cut: words("sendIn.label.cut"),
    from: words("sendIn.label.from"),
    to: words("sendIn.label.to"),
    number: words("sendIn.label.number"),
    contents: words("sendIn.label.contents"),
  };
  return { number: returned.number, pdf: await returnLabelPdf(returned.label, paper, on, { language: actor.language, steps: returned.steps, seller: name, now }) };
}
