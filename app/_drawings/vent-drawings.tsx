import { Hose, Letter } from "./strokes";

/** Engine with the stub of its vent. */
function SmallEngine() {
  return <path className="body" d="M4 38h44v40H4zM10 26h32v12H10z" />;
}

export function VentToIntake() {
  return (
    <>
      <path className="body" d="M60 34h46v20H60zM106 26h12v36h-12z" />
      <path className="hidden" d="M52 44H104" />
      <Hose d="M26 28V12H80V36" width={9} holds="air" />
      <SmallEngine />
    </>
  );
}

export function VentToOpenAir() {
  return (
    <>
      <Hose d="M26 28V12H74V30" width={9} holds="air" />
      <path className="hidden" d="M74 36v10M66 36c-2 8 -8 8 -8 16M82 36c2 8 8 8 8 16" />
      <SmallEngine />
    </>
  );
}

export function VentToCatchCan() {
  return (
    <>
      <Hose d="M26 28V12H82V36" width={9} holds="air" />
      <path className="body" d="M66 34h34v42H66zM88 26h8v8h-8z" />
      <path className="oil" d="M67 64h32v11H67z" />
      <SmallEngine />
    </>
  );
}

export function VentCapped() {
  return (
    <>
      <Hose d="M26 28V16" width={9} holds="air" />
      <path className="solid" d="M18 8h16v10H18z" />
      <path className="heavy" d="M58 10L76 28M76 10L58 28" />
      <SmallEngine />
    </>
  );
}

function VentHousing() {
  return (
    <>
      <Hose d="M2 42H40M80 42H118" width={12} holds="air" />
      <rect className="body" x="34" y="16" width="52" height="52" rx="4" />
    </>
  );
}

export function ElementLeftIn() {
  return (
    <>
      <VentHousing />
      <path className="cut" d="M46 20h28v44H46z" />
      <path className="thin" d="M50 22l5 40l5 -40l5 40l5 -40" />
    </>
  );
}

export const ElementTakenOut = VentHousing;

export function LengthOfVentHose() {
  return (
    <>
      <path className="body" d="M20 96h120v96H20zM34 62h92v34H34z" />
      <path className="body" d="M226 112h86v44h-86zM312 96h34v76h-34z" />
      <path className="hidden" d="M212 134H308" />
      <Hose d="M78 66V38H266V116" holds="air" />
      <path className="hidden" d="M96 66V56H248V112" />
      <path className="lead" d="M88 66h16M240 112h16" />
      <Letter x={172} y={80} letter="A" to="l0 -22" />
    </>
  );
}
