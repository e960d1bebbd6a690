import { forecastAddress, monthsAddress, type Parameters, toClaimAddress } from "../addresses";

/** From a report to the same selection over time, over as long as is usual there; fitters and months in service are not told apart there. */
export function TimeLinks({ filter }: { filter: Parameters }) {
  const { kit, revision, vehicle, batch, cause, outcome, origin } = filter;
  const narrowing = { kit, revision, vehicle, batch, cause, outcome, origin };
  return (
    <p className="letter no-print">
      Over time: <a href={monthsAddress(narrowing)}>claims by month</a>, <a href={toClaimAddress(narrowing)}>time to claim</a>, <a href={forecastAddress(narrowing)}>claims to come</a>
    </p>
  );
}
