import type { Say } from "../say";
import type { CautionCode, StopReason } from "./knowledge";

export interface Caution {
  title: string;
  sentence: string;
}

/** A caution, printed where the work is. It never replaces the maker's data and local law. */
export const cautionInWords = (code: CautionCode, say: Say): Caution => ({ title: say(`cautions.${code}.title`), sentence: say(`cautions.${code}.sentence`) });

/** Why the engine must stand still, told to whoever could start it. */
export const stopEngineInWords = (reason: StopReason, say: Say): Caution => ({ title: say(`stop.${reason}.title`), sentence: say(`stop.${reason}.sentence`) });

/** A caution as one text: "Hot parts. Turbine and exhaust stay hot ..." */
export const inOneText = ({ title, sentence }: Caution): string => `${title}. ${sentence}`;
