import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadSecondOpinions } from "@/lib/operations/load-second-opinions";
import { inZone } from "../times";

export const metadata: Metadata = { title: "Second opinions" };

export default async function SecondOpinionsPage() {
  const actor = await requireStaff("/queue/second-opinions");
  const loaded = await loadSecondOpinions(actor);
  if (!loaded.ok) forbidden();
  const { claims, share, timeZone } = loaded;
  const zone = inZone(timeZone);
  return (
    <DeskShell actor={actor} here="Queue">
      <p className="small letter no-print">
        <Link href="/queue">Queue</Link> / second opinions
      </p>
      <h1>{claims.length === 0 ? "No claim waits for your second opinion" : claims.length === 1 ? "1 claim waits for your second opinion" : `${claims.length} claims wait for your second opinion`}</h1>
      <p>
        Of a hundred decided claims {share} {share === 1 ? "is" : "are"} put to somebody else, who sees what was found and the photos and nothing of the ranking or the verdict. Your opinion changes no verdict: it shows how far two of us agree when neither has seen what the other thinks.
      </p>
      {claims.length > 0 ? (
        <table>
          <thead>
            <tr>
              <th scope="col">Kit on vehicle</th>
              <th scope="col">Decided</th>
            </tr>
          </thead>
          <tbody>
            {claims.map(({ id, kit, vehicle, decidedAt }) => (
              <tr key={id}>
                <th scope="row">
                  <Link href={`/queue/second-opinions/${id}`}>
                    {kit ?? "kit not known"} on {vehicle || "a vehicle not known"}
                  </Link>
                </th>
                <td>{zone.time(decidedAt)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
    </DeskShell>
  );
}
