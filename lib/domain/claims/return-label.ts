/** What stands on the label of a return. */
export interface ReturnLabel {
  number: string;
  /** The address that the QR code holds. */
  url: string;
  to: readonly string[];
  from: readonly string[];
}

/** What a label is printed on. */
export const LABEL_PAPERS = ["a4", "a6", "roll"] as const;
export type LabelPaper = (typeof LABEL_PAPERS)[number];
