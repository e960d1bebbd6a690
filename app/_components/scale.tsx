import type { Attribution } from "@/lib/domain/diagnosis/attributions";

const TICKS = [10, 20, 30, 40, 50, 60, 70, 80, 90];

/** A probability as a ruled length; always stands beside its number. Hatching tells the attribution. */
export function Scale({ share, attribution }: { share: number; attribution: Attribution }) {
  return (
    <svg className="scale" aria-hidden="true" focusable="false">
      <rect className="scale-frame" x="0.5" y="0.5" width="99.5%" height="13" />
      {TICKS.map((tick) => (
        <line key={tick} className="scale-tick" x1={`${tick}%`} x2={`${tick}%`} y1="1" y2="13" />
      ))}
      <rect className={`fill-${attribution}`} x="0.5" y="0.5" width={`${Math.min(1, share) * 99.5}%`} height="13" />
    </svg>
  );
}

/** Words for a probability: whole per cent, and never a false 0 or 100. */
export function percent(share: number): string {
  if (share > 0 && share < 0.005) return "under 1 %";
  if (share < 1 && share > 0.995) return "over 99 %";
  return `${Math.round(share * 100)} %`;
}
