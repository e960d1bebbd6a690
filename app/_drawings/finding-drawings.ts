import type { ReactNode } from "react";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Screen } from "@/lib/domain/intake/answers";
import { PAIR_UNIT } from "@/lib/domain/intake/screens";
import {
  AngleOfOutlet,
  BoreOfDrain,
  BoreOfVentHose,
  DrainFalls,
  DrainIntoCan,
  ElbowsOfDrain,
  EntryAboveOil,
  EntryBelowOil,
  FallOfDrain,
  GasketMatches,
  GasketOutOfLine,
  GasketSmall,
  LengthOfDrain,
  LowestStretchOfDrain,
  PipeClear,
  PipeCoked,
  PipeCrushed,
  PipeWithSealant,
  SmallFalls,
  SmallLevel,
  SmallRises,
  SmallSags,
} from "./drain-drawings";
import { BothOfPair, DepressionAtInlet, FilterClean, FilterDirty, FilterSmall, LargeOfPair, NumberOnFilter, OilAheadOfWheel, SingleUnit, SmallOfPair } from "./intake-drawings";
import {
  BladesNicked,
  BladesSmooth,
  CrateBroken,
  CrateWhole,
  Film,
  NoRubMarks,
  OilInCompressor,
  OilInPorts,
  OilInTurbine,
  OilOutside,
  OilStick,
  Puddle,
  RubMarks,
  StickAboveMark,
  StickBetweenMarks,
} from "./oil-drawings";
import { BlowBy, CrankcasePressure, FeedPressure, FillerCapAtIdle, RestrictorBore, UnitIsolated } from "./pressure-drawings";
import {
  AxialPlay,
  CollarEven,
  CollarWiped,
  HousingCracked,
  HousingWhole,
  JournalScored,
  JournalSmooth,
  RadialPlayAtCentre,
  RadialPlayAtNose,
  RingOffGroove,
  RingSeated,
  RunOnRig,
  TiltOfShaft,
  TurnedByHand,
} from "./shaft-drawings";
import { SerialPlate } from "./unit-drawings";
import { ElementLeftIn, ElementTakenOut, LengthOfVentHose, VentCapped, VentToCatchCan, VentToIntake, VentToOpenAir } from "./vent-drawings";

export type Shapes = () => ReactNode;

/** What is drawn of a question: where and how to look, and the answers where they differ by shape. */
export interface DrawingsOfFinding {
  asked?: Shapes;
  options?: Readonly<Record<string, readonly Shapes[]>>;
}

const answers = (present: readonly Shapes[], absent: readonly Shapes[]): DrawingsOfFinding => ({ options: { present, absent } });

/** By the finding that is asked; the words of a drawing stand under the same code in the message files. */
export const FINDING_DRAWINGS: Readonly<Record<FindingCode, DrawingsOfFinding>> = {
  F01: { asked: OilInTurbine },
  F02: { asked: OilInCompressor },
  F03: { asked: OilAheadOfWheel },
  F04: answers([Puddle], [Film]),
  F05: { asked: OilOutside },
  F12: { asked: DrainFalls, ...answers([SmallLevel, SmallRises, SmallSags], [SmallFalls]) },
  F13: { asked: BoreOfDrain },
  F14: { asked: FallOfDrain },
  F15: { asked: ElbowsOfDrain },
  F16: answers([EntryBelowOil], [EntryAboveOil]),
  F17: answers([PipeCrushed, PipeCoked, PipeWithSealant], [PipeClear]),
  F18: answers([GasketSmall, GasketOutOfLine], [GasketMatches]),
  F19: { asked: DrainIntoCan },
  F20: { asked: AngleOfOutlet },
  F21: { asked: TiltOfShaft },
  F22: { asked: OilStick, ...answers([StickAboveMark], [StickBetweenMarks]) },
  F24: { options: { intake: [VentToIntake], "open-air": [VentToOpenAir], "catch-can": [VentToCatchCan], capped: [VentCapped] } },
  F25: answers([ElementLeftIn], [ElementTakenOut]),
  F26: { asked: BoreOfVentHose },
  F28: { asked: FillerCapAtIdle },
  F29: { asked: CrankcasePressure },
  F30: { asked: BlowBy },
  F31: { asked: UnitIsolated },
  F34: answers([FilterDirty, FilterSmall], [FilterClean]),
  F35: { asked: DepressionAtInlet },
  F37: { options: { single: [SingleUnit], "low-pressure": [LargeOfPair], "high-pressure": [SmallOfPair] } },
  F38: { asked: FeedPressure },
  F40: { asked: TurnedByHand },
  F41: { asked: AxialPlay },
  F42: { asked: RadialPlayAtCentre },
  F43: answers([RubMarks], [NoRubMarks]),
  F44: answers([BladesNicked], [BladesSmooth]),
  F45: answers([RingOffGroove], [RingSeated]),
  F46: answers([CollarWiped], [CollarEven]),
  F47: answers([JournalScored], [JournalSmooth]),
  F48: { asked: RunOnRig },
  F49: answers([HousingCracked], [HousingWhole]),
  F50: { asked: OilInPorts },
  F51: answers([CrateBroken], [CrateWhole]),
  F52: { asked: LengthOfDrain },
  F53: { asked: LowestStretchOfDrain },
  F54: { asked: ElbowsOfDrain },
  F55: { asked: LengthOfVentHose },
  F56: { asked: RestrictorBore },
  F57: { asked: NumberOnFilter },
  F61: { asked: RadialPlayAtNose },
};

/** Findings that need no drawing, and why. */
export const NOT_DRAWN: Readonly<Record<FindingCode, string>> = {
  F06: "a memory of smoke, by when it came",
  F07: "a time",
  F08: "what was done, as told",
  F09: "what was done, as told",
  F10: "a memory of a drive",
  F11: "what was done, as told",
  F23: "words on a can",
  F27: "the weather",
  F32: "a tester with its maker's instructions",
  F33: "a distance and a memory",
  F36: "how the vehicle is used",
  F39: "a tester with its maker's instructions",
  F58: "a figure in the papers",
  F59: "a figure in the engine's data",
  F60: "a figure on the vehicle's own gauge",
  F62: "a word in the unit's data",
  F63: "worked out, nobody is asked",
};

/** Fields that ask for something other than findings, by their name. */
export const FIELD_DRAWINGS: typeof FINDING_DRAWINGS = { [PAIR_UNIT]: { options: { large: [LargeOfPair], small: [SmallOfPair], both: [BothOfPair] } } };

/** Screens that ask for something other than findings and have something to show. */
export const SCREEN_DRAWINGS: Readonly<Partial<Record<Screen, Shapes>>> = { serial: SerialPlate };

/** The others, and why they need no drawing of this kind. */
export const SCREENS_NOT_DRAWN: Readonly<Partial<Record<Screen, string>>> = {
  who: "who is asked",
  purchase: "how the purchase is found",
  order: "words of a mail",
  item: "a list of the order",
  kit: "a list of kits",
  vehicle: "a list of vehicles",
  oil: "has the oil path to tap",
  fitting: "a day, a distance and a name",
  pictures: "has the outlines of what to photograph",
  contact: "a name and an address",
};
