import { currentWords } from "@/lib/access/language";
import type { Messages } from "@/lib/messages/words";

/** Why an answer was not kept, a claim not filed or a link not sent, in the words of the page. */
export async function inWords(problem: keyof Messages["intake"]["problem"]): Promise<string> {
  return (await currentWords())(`intake.problem.${problem}`);
}
