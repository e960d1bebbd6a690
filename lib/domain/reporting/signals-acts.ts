/** What can be done about a signal; `not_real` says that it is none. */
export const SIGNAL_ACTS = ["noted", "drawing_changed", "leaflet_changed", "supplier_told", "revision_shipped", "not_real"] as const;
export type SignalAct = (typeof SIGNAL_ACTS)[number];

export const SIGNAL_ACT_NAMES: Readonly<Record<SignalAct, string>> = {
  noted: "noted",
  drawing_changed: "drawing changed",
  leaflet_changed: "leaflet changed",
  supplier_told: "supplier told",
  revision_shipped: "revision shipped",
  not_real: "not real",
};

/** Whether an act changes what ships from some month on, so that before and after can be compared. */
export function isChange(act: SignalAct): boolean {
  return act !== "noted" && act !== "not_real";
}

/** Where a signal stands: waiting for a decision, what was done about it, or faded before anybody decided. */
export const SIGNAL_STATES = ["waiting", ...SIGNAL_ACTS, "faded"] as const;
export type SignalState = (typeof SIGNAL_STATES)[number];

export const SIGNAL_STATE_NAMES: Readonly<Record<SignalState, string>> = { waiting: "waiting for a decision", ...SIGNAL_ACT_NAMES, faded: "faded undecided" };

/** What was decided stays so when the signal fades: that is what a decision hopes for. */
export function signalState({ act, standsOut }: { act: SignalAct | null; standsOut: boolean }): SignalState {
  return act ?? (standsOut ? "waiting" : "faded");
}
