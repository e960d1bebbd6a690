import type { CautionCode, StopReason } from "./knowledge";

export interface Caution {
  title: string;
  sentence: string;
}

/** The cautions, printed where the work is. They never replace the maker's data and local law. */
export const CAUTIONS: Readonly<Record<CautionCode, Caution>> = {
  S1: {
    title: "A diesel can run away on oil",
    sentence: "Oil in the intake can fuel a diesel that the key then cannot stop. Do not run it; if it runs away, stand clear and keep your hands from the inlet.",
  },
  S2: {
    title: "Hot parts",
    sentence: "Turbine and exhaust stay hot for a long time. Work only with the engine stopped and cold, and shield your eyes.",
  },
  S3: {
    title: "Turning wheel",
    sentence: "Never put fingers, rags or tools into a housing while the engine can turn, and never run it with the inlet open and unguarded.",
  },
  S4: {
    title: "Oil fire and hot oil",
    sentence: "Oil on hot parts can catch fire and hot oil burns. Keep an extinguisher at hand, wear gloves, and never open a line under pressure.",
  },
  S5: {
    title: "Under the vehicle",
    sentence: "Look from above. Only a trained person goes under, with the vehicle on rated stands on firm ground and its wheels chocked; never on a jack alone.",
  },
  S6: {
    title: "For a technician",
    sentence: "This needs training and tools. Leave it to a licensed technician, who follows the maker's data and local law.",
  },
  S7: {
    title: "Exhaust gas",
    sentence: "An engine runs only outdoors or with extraction. Exhaust gas in a closed room kills.",
  },
};

/** Why the engine must stand still, told to whoever could start it. */
export const STOP_ENGINE_TEXTS: Readonly<Record<StopReason, Caution>> = {
  "oil-in-intake-can-run-away": {
    title: "Do not run the engine: there is oil in the intake",
    sentence: "A diesel can run away on oil in its intake and not stop with the key. Leave it off until the oil has been drained from pipes and intercooler and the amount is known to be no more than a film.",
  },
  "oil-on-hot-parts": {
    title: "Do not run the engine: oil may reach hot parts",
    sentence: "Oil in a puddle or dripping near the turbine or exhaust can catch fire. Leave it off until it has been cleaned and the cause is found.",
  },
  "wheel-contact": {
    title: "Do not run the engine: a wheel has touched or been hit",
    sentence: "A damaged wheel can break up at speed. Leave it off until a technician has looked at the unit.",
  },
};

/** Stands under every list of checks. */
export const MAKERS_DATA_COME_FIRST =
  "The maker's data and local law come first. In many countries the crankcase vent and the exhaust after-treatment are emission controls that may not be changed on the road. Where in doubt, a licensed technician decides.";
