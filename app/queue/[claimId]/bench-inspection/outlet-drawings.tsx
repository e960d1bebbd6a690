import type { ReactNode } from "react";
import { Pictures } from "@/app/_drawings/drawing";

/** The outlet flange from below, with its two bolt holes, 120 by 80. */
function Flange({ children }: { children: ReactNode }) {
  return (
    <>
      <rect className="body" x="8" y="8" width="104" height="64" rx="26" />
      <circle className="open" cx="23" cy="40" r="6" />
      <circle className="open" cx="97" cy="40" r="6" />
      {children}
    </>
  );
}

const Hole = () => <circle className="open" cx="60" cy="40" r="22" />;

const SealantInHole = () => (
  <Flange>
    <Hole />
    <path className="cut" d="M42 27C52 24 60 34 68 30S78 34 81 41C76 46 70 40 64 46S48 52 39 44C36 38 38 31 42 27z" />
  </Flange>
);

const SealantOnFlange = () => (
  <Flange>
    <Hole />
    <path className="cut" d="M60 12a28 28 0 1 1 -0.1 0zM60 18a22 22 0 1 0 0.1 0z" />
  </Flange>
);

const CleanFlange = () => (
  <Flange>
    <Hole />
  </Flange>
);

const TornGasket = () => (
  <Flange>
    <Hole />
    <path className="cut" d="M34 20C44 10 76 10 86 20L80 26C72 18 48 18 40 26zM34 60C44 70 60 71 70 69L66 61C58 62 48 62 40 54z" />
  </Flange>
);

const WholeGasket = () => (
  <Flange>
    <path className="cut" d="M60 10a30 30 0 1 1 -0.1 0zM60 18a22 22 0 1 0 0.1 0z" />
    <Hole />
  </Flange>
);

/** What is drawn of the answers at the outlet that no finding of the knowledge covers, by field and option. */
export const OUTLET_DRAWINGS: Readonly<Record<string, Readonly<Record<string, ReactNode>>>> = {
  sealant: { closing: <Pictures shapes={[SealantInHole]} />, flange: <Pictures shapes={[SealantOnFlange]} />, none: <Pictures shapes={[CleanFlange]} /> },
  gasket: { whole: <Pictures shapes={[WholeGasket]} />, torn: <Pictures shapes={[TornGasket]} />, missing: <Pictures shapes={[CleanFlange]} /> },
};
