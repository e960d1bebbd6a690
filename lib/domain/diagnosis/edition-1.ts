import { bench1 } from "./edition-1-bench";
import { causes1 } from "./edition-1-causes";
import { circumstances1 } from "./edition-1-circumstances";
import { looks1 } from "./edition-1-looks";
import { measurements1 } from "./edition-1-measurements";
import { references1 } from "./edition-1-references";
import { sites1 } from "./edition-1-sites";
import { workshop1 } from "./edition-1-workshop";
import { germanOf } from "./edition-1-german";
import type { Edition } from "./knowledge";

const english: Edition = {
  number: 1,
  name: "First edition",
  causes: causes1,
  findings: [...circumstances1, ...sites1, ...looks1, ...workshop1, ...measurements1, ...bench1],
  references: references1,
  experience: [],
  samePhysicalFact: [
    ["F12", "F14", "F53"], // how the drain runs
    ["F13", "F15", "F18"], // how wide the drain is
    ["F28", "F29"], // pressure in the crankcase
    ["F34", "F35", "F57"], // resistance of the intake
    ["F20", "F21"], // attitude
    ["F38", "F56"], // oil feed
    ["F42", "F61"], // radial play
  ],
  stopRules: [
    // Oil after the wheel or ahead of it: until it is known to be a mere film, it may feed a run-away.
    { reason: "oil-in-intake-can-run-away", when: [{ finding: "F02", answer: "present" }], unless: { finding: "F04", answer: "absent" } },
    { reason: "oil-in-intake-can-run-away", when: [{ finding: "F03", answer: "present" }], unless: { finding: "F04", answer: "absent" } },
    { reason: "wheel-contact", when: [{ finding: "F40", answer: "present" }], unless: null },
    { reason: "wheel-contact", when: [{ finding: "F43", answer: "present" }], unless: null },
    { reason: "wheel-contact", when: [{ finding: "F44", answer: "present" }], unless: null },
    { reason: "oil-on-hot-parts", when: [{ finding: "F01", answer: "present" }, { finding: "F04", answer: "present" }], unless: null },
    { reason: "oil-on-hot-parts", when: [{ finding: "F05", answer: "present" }, { finding: "F04", answer: "present" }], unless: null },
  ],
  translations: {},
};

/**
 * The first edition of the knowledge. No published likelihood ratio exists for these findings: directions are
 * published or common practice, sizes are judgement, and all of them are there to be replaced by counts of confirmed
 * verdicts. A later edition is a document of its own; this one never changes.
 *
 * The findings stand in the fixed order in which evidence is told: circumstances, sites, looks, measurements, bench.
 */
export const edition1: Edition = { ...english, translations: { de: germanOf(english) } };
