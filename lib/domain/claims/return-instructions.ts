export interface ReturnFacts {
  /** Of the return, `R-` and a reference. */
  number: string;
  /** The day by which the unit should be here, in words. */
  sendBy: string;
  seller: { name: string; returnAddress: string };
}

/**
 * How to send the unit in: the same paragraphs on the customer's page and in the mail. Line breaks within a paragraph
 * are those of the address.
 *
 * The unit is left as it came off, because where oil lies and how hard it has baked is what the bench reads; closed and
 * bagged, it still travels clean (common practice).
 */
export function returnInstructions({ number, sendBy, seller }: ReturnFacts): readonly string[] {
  return [
    `Send it so that it is here by ${sendBy}, to:\n${postalAddress(seller).join("\n")}`,
    "Leave the unit as it came off: do not clean it and do not open it.",
    "Plug or tape its openings, and put it in a bag, so that no oil runs out on the way. Send the gaskets that were between the unit and its pipes along with it.",
    `Write the return number ${number} on the outside of the parcel. Without it we cannot tell whose unit it is.`,
  ];
}

/** The lines of an address under the firm's name, which many addresses begin with already. */
export function postalAddress({ name, returnAddress }: ReturnFacts["seller"]): readonly string[] {
  const lines = returnAddress.split("\n").map((line) => line.trim());
  return [name, ...lines.filter((line) => line !== "" && line !== name)];
}
