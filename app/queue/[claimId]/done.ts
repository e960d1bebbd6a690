/** What was just done to a claim, named in the address after a redirect. */
const DONE = {
  taken: "The claim has changed hands.",
  asked: "Asked: the question stands on the customer\u2019s page, and a mail is on its way.",
  withdrawn: "The question is taken back.",
  recorded: "The finding is recorded, and the causes are ranked anew.",
  rankedAnew: "The causes are ranked anew, with the edition in force.",
  written: "The message stands on the customer\u2019s page, and a mail is on its way.",
  noted: "The note is kept, for the desk alone.",
  marked: "The mark stands on the photo.",
  unmarked: "The mark is taken away.",
  linked: "The two claims are linked: each tells of the other.",
  unlinked: "The link is taken away.",
  merged: "Merged: this one goes on in the other, and its customer is told so.",
  takenApart: "Taken apart: this one is back in review, and the other goes on without it.",
  pairNamed: "Kept which unit of the pair it is about.",
  setAside: "Set aside: what the customer wrote needs no answer.",
  dispositioned: "What becomes of the unit is decided.",
  proposed: "Your verdict waits for a second person. The customer hears nothing before.",
  approved: "Approved: the verdict stands, and the letter is on its way to the customer.",
  sentBack: "Sent back, with your words. The customer has heard nothing.",
  verdictTakenBack: "The verdict that waited is taken back. The customer has heard nothing.",
  decided: "Decided. The letter is on its way to the customer.",
  opinionGiven: "Your second opinion is kept. It stands beside the verdict, which it does not change.",
  unitAsked: "Asked for the unit: a mail with the number and the address is on its way to the customer.",
  unitSetOut: "Kept: the unit is on its way.",
  returnProlonged: "The customer has more time, and a mail that says so.",
  returnEnded: "The unit is not waited for any more, and the claim is back in review. The customer is told; should it come, it is taken in.",
  sameUnit: "Kept: it is the unit of this claim, and what the bench finds counts.",
  unitSetAside: "The unit is set aside as another one, and this claim\u2019s own is awaited again.",
  booked: "The amount is booked.",
  settled: "The claim is settled.",
  reversed: "The booking is reversed.",
  reached: "Noted: the customer was reached in another way.",
  reminded: "The customer is reminded: a mail is on its way.",
  held: "Held. Nobody is reminded, and the claim does not lapse.",
  letGo: "Reminders go on, with all days counted from now.",
  filedForCaller: "Filed. Read out the reference to the caller: it stands first in the block above.",
  reopened: "The claim is back in review. Its verdict no longer stands.",
} as const;
export type DoneCode = keyof typeof DONE;

/** Where an act leads that confirms itself on the page of its claim. */
export const donePath = (claimId: string, done: DoneCode) => `/queue/${claimId}?done=${done}`;

export function doneInWords(code: string | undefined): string | null {
  return code !== undefined && Object.hasOwn(DONE, code) ? DONE[code as DoneCode] : null;
}
