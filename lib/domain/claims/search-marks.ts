/** Around what was looked for in a piece of text: signs that nobody types and no text keeps. */
export const HIT_START = "\u0002";
export const HIT_END = "\u0003";
