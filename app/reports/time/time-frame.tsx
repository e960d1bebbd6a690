import type { ReactNode } from "react";
import { ChartHatching } from "../_charts/chart";
import { causesAddress, carried, forecastAddress, monthsAddress, type Parameters, toClaimAddress } from "../addresses";
import styles from "./time.module.css";

const PAGES = [
  { name: "Claims by month", addressOf: monthsAddress },
  { name: "Time to claim", addressOf: toClaimAddress },
  { name: "Claims to come", addressOf: forecastAddress },
] as const;
export type TimePage = (typeof PAGES)[number]["name"];

/** The three pages about time, each reached from the others with what is narrowed to. */
export function TimeFrame({ here, filter, children }: { here: TimePage; filter: Parameters; children: ReactNode }) {
  const { kit, revision, vehicle, cause } = filter;
  const narrowing = { ...carried(filter), kit, revision, vehicle, cause };
  return (
    <>
      <ChartHatching />
      <nav className={`${styles.pages} no-print`} aria-label="Reports about time">
        <a href={causesAddress(narrowing)}>Causes by kit and vehicle</a>
        {PAGES.map(({ name, addressOf }) => (
          <a key={name} href={addressOf(narrowing)} aria-current={name === here ? "page" : undefined}>
            {name}
          </a>
        ))}
      </nav>
      {children}
    </>
  );
}
