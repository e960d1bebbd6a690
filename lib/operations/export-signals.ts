import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import type { Effect } from "@/lib/domain/reporting/signals-effect";
import { SIGNAL_STATE_NAMES, signalState } from "@/lib/domain/reporting/signals-acts";
import { scopeInWords } from "@/lib/domain/reporting/signals-sentence";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { SignalsFilter } from "@/lib/inputs/signal";
import { loadSignals } from "./load-signals";
import { type Refusal, refuse } from "./refusal";

const COLUMNS = {
  place: "place on the list",
  about: "about",
  cause: "cause",
  causeName: "cause in words",
  state: "state",
  standsOut: "stands out now",
  claims: "claims",
  expected: "expected claims",
  ratio: "times the expected, shrunken",
  lower: "times the expected, lower 90 % limit",
  upper: "times the expected, upper 90 % limit",
  falseShare: "expected share of false ones up to here",
  shipped: "shipped",
  unitMonths: "unit-months in service, estimated",
  since: "shipped since",
  firstSeen: "first seen",
  firstClaims: "claims when first seen",
  firstRatio: "times the expected when first seen",
  seen: "stood out last",
  holdsFrom: "what was done holds from",
  note: "note",
  by: "decided by",
  decided: "decided",
  claimsBefore: "claims of what was shipped before",
  usualBefore: "usual for it by now",
  claimsAfter: "claims of what was shipped since",
  usualAfter: "usual for that by now",
  effect: "times the rate before",
  effectLower: "times the rate before, lower 90 % limit",
  effectUpper: "times the rate before, upper 90 % limit",
};

/** What came of what was done; a ratio that has no end, since nothing came before, is told in its word. */
function effectColumns(effect: Effect | null) {
  const ratio = effect?.kind === "compared" ? effect.ratio : null;
  const shown = (value: number | "infinite" | undefined) => (value === "infinite" ? value : rounded(value));
  return {
    claimsBefore: effect?.before.claims ?? null,
    usualBefore: rounded(effect?.before.usual),
    claimsAfter: effect?.after.claims ?? null,
    usualAfter: rounded(effect?.after.usual),
    effect: shown(ratio?.ratio),
    effectLower: shown(ratio?.lower),
    effectUpper: shown(ratio?.upper),
  };
}

/** The list of signals as a table. */
export async function exportSignals(actor: StaffActor, filter: SignalsFilter): Promise<{ ok: true; table: FileTable } | Refusal> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const sheet = await loadSignals(actor, filter);
  if (!sheet.ok) return sheet;
  const { signals, catalogue, causes, timeZone } = sheet;
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  const rows = signals.map(({ scope, cause, figures, firstFigures, decisions: [newest], ...signal }) => ({
    place: signal.standsOut ? signal.place : null,
    about: scopeInWords(scope, catalogue),
    cause,
    causeName: causes.find(({ code }) => code === cause)?.name ?? null,
    state: SIGNAL_STATE_NAMES[signalState(signal)],
    standsOut: signal.standsOut ? "yes" : "no",
    claims: figures.claims,
    expected: rounded(figures.expected),
    ratio: rounded(figures.ratio.ratio),
    lower: rounded(figures.ratio.lower),
    upper: rounded(figures.ratio.upper),
    falseShare: rounded(figures.falseDiscoveryRate),
    shipped: rounded(figures.unitsShipped),
    unitMonths: rounded(figures.unitMonthsInService),
    since: figures.since,
    firstSeen: day.format(signal.firstSeenAt),
    firstClaims: firstFigures.claims,
    firstRatio: rounded(firstFigures.ratio.ratio),
    seen: day.format(signal.seenAt),
    holdsFrom: newest?.holdsFrom ?? null,
    note: newest?.note ?? null,
    by: newest?.by ?? null,
    decided: newest ? day.format(newest.at) : null,
    ...effectColumns(signal.effect),
  }));
  return { ok: true, table: fileTable(COLUMNS, rows) };
}
