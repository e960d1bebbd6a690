import type { CauseCode, Figure, FigurePerObserver, Link, Provenance } from "./knowledge";

/**
 * A row of the table of ratios: how many times as likely the finding is under this cause as under the others, when
 * it is seen (`plus`) and, where that is known, when it was looked for and is not there (`minus`).
 */
export interface RatioRow {
  cause: CauseCode;
  plus: number;
  minus?: number;
}

/** How much a customer's answer is worth beside a technician's: `half` halves the logarithm of every ratio. */
export type CustomerWeight = "half" | "full";

interface Figures {
  background: FigurePerObserver;
  links: Link[];
}

/**
 * Background of a finding: how often it is seen with none of its causes there. Solves
 * `plus * background = 1 - (1 - background) * (1 - link)`.
 *
 * Example: plus 12 and link 0.95 give 0.95 / 11.95 = 0.0795.
 */
export function backgroundFromRatio(plus: number, link: number): number {
  return link / (plus - 1 + link);
}

/**
 * Link of a further cause from its ratio and the finding's background: the same equation solved for the link.
 *
 * Example: plus 2 at a background of 0.0795 gives 1 * 0.0795 / 0.9205 = 0.086.
 */
export function linkFromRatio(plus: number, background: number): number {
  return Math.min(0.99, ((plus - 1) * background) / (1 - background));
}

/** Halves the logarithm of a ratio: 12 becomes 3.46, 0.05 becomes 0.224. */
function halved(ratio: number): number {
  return Math.sqrt(ratio);
}

function figuresFor(rows: readonly RatioRow[], weigh: (ratio: number) => number) {
  const [lead] = rows;
  if (lead?.minus === undefined) throw new Error("the first row of a finding needs both of its ratios");
  const leadLink = 1 - weigh(lead.minus);
  const background = backgroundFromRatio(weigh(lead.plus), leadLink);
  const links = rows.map(({ cause, plus, minus }) => ({
    cause,
    strength: minus === undefined ? linkFromRatio(weigh(plus), background) : 1 - weigh(minus),
  }));
  return { background, links };
}

/**
 * Figures of a finding from its rows of ratios: link = 1 - minus, the background from the first row's plus, and the
 * links of rows without a minus from that background. A customer overlooks more and misnames more; where the
 * finding is one that a technician would answer better, the customer's ratios count half (judgement).
 *
 * Example: one row C01 12 / 0.05 gives a technician link 0.95 and background 0.079, a customer link 0.776 and
 * background 0.24.
 */
export function figuresFromRatios(rows: readonly RatioRow[], provenance: Provenance, customer: CustomerWeight = "half"): Figures {
  const skilled = figuresFor(rows, (ratio) => ratio);
  const owner = customer === "half" ? figuresFor(rows, halved) : skilled;
  const figure = (value: number): Figure => ({ value, provenance });
  return {
    background: perObserver(figure(owner.background), figure(skilled.background)),
    links: rows.map(({ cause }, place) => ({
      cause,
      strength: perObserver(figure(owner.links[place]?.strength ?? 0), figure(skilled.links[place]?.strength ?? 0)),
    })),
  };
}

/** The bench sees what a technician sees: no figures of its own are known yet. */
export function perObserver(customer: Figure, technician: Figure): FigurePerObserver {
  return { customer, technician, bench: technician };
}
