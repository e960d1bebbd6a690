import type { ReactNode } from "react";

/** The facts that identify the sheet, in ruled cells. */
export function TitleBlock({ facts }: { facts: readonly { name: string; value: ReactNode }[] }) {
  return (
    <dl className="title-block">
      {facts.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
