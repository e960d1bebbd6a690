import Link from "next/link";

/** Instead of a report whose address cannot be followed. */
export function RefusedFilter({ errors }: { errors: Readonly<Partial<Record<string, string>>> }) {
  return (
    <>
      <h1>This address leads to no figures</h1>
      <ul>
        {Object.entries(errors).map(([field, message]) => (
          <li key={field}>{message}</li>
        ))}
      </ul>
      <p>
        <Link href="/reports/causes">Causes by kit and vehicle</Link>
      </p>
    </>
  );
}
