const SAID: Readonly<Record<string, string>> = {
  kept: "Kept.",
  removed: "Taken out of the catalogue.",
  joined: "They are one fitter now, with the claims of both.",
  "in-use": "It stays: shipments, claims, units, kits or turbo models, or a chargeback, stand on it.",
  "not-found": "It was taken out of the catalogue before.",
  same: "Those two are the same already.",
};

/** What came of the last act. */
export function Said({ said }: { said: string | undefined }) {
  const words = said && SAID[said];
  return words ? (
    <p className="note" role="status">
      <strong>{words}</strong>
    </p>
  ) : null;
}
