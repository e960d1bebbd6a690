import { carried, forecastAddress, monthsAddress, type Parameters, toClaimAddress } from "../addresses";

/** From a report to the same selection over time, over as long as is usual there. */
export function TimeLinks({ filter }: { filter: Parameters }) {
  const { kit, revision, vehicle, cause } = filter;
  const narrowing = { ...carried(filter), from: undefined, to: undefined, kit, revision, vehicle, cause };
  return (
    <p className="letter no-print">
      Over time: <a href={monthsAddress(narrowing)}>claims by month</a>, <a href={toClaimAddress(narrowing)}>time to claim</a>, <a href={forecastAddress(narrowing)}>claims to come</a>
    </p>
  );
}
