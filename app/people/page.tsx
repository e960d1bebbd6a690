import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { z } from "zod";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { ROLE_NAMES, ROLES } from "@/lib/domain/claims/roles";
import { loadPeople, type PersonListed } from "@/lib/operations/load-people";
import { changeRoleHere, disableHere, enableHere, sendLinkHere } from "./actions";
import { InviteForm } from "./invite-form";
import { outcomeInWords } from "./outcomes";
import styles from "./people.module.css";

export const metadata: Metadata = { title: "People" };

const releasedSchema = z.coerce.number().int().nonnegative().catch(0);

export default async function PeoplePage({ searchParams }: { searchParams: Promise<{ said?: string | string[]; released?: string | string[] }> }) {
  const actor = await requireStaff("/people");
  const loaded = await loadPeople(actor);
  if (!loaded.ok) forbidden();
  const query = await searchParams;
  const said = outcomeInWords(query.said);
  const released = releasedSchema.parse(query.released);
  const active = loaded.people.filter(({ disabledAt }) => !disabledAt);
  const waiting = active.filter(({ hasPassword }) => !hasPassword).length;
  return (
    <DeskShell actor={actor} here="People">
      <h1>
        {active.length === 1 ? "One person" : `${active.length} people`} may sign in{waiting > 0 ? `; ${waiting === 1 ? "one has" : `${waiting} have`} not chosen a password yet` : ""}
      </h1>
      {said ? (
        <p className="note" role="status">
          {said}
          {released > 0 ? (
            <>
              {" "}
              <Link href="/queue?who=nobody">{released === 1 ? "One open claim of theirs is" : `${released} open claims of theirs are`} in nobody&rsquo;s hand now</Link>.
            </>
          ) : null}
        </p>
      ) : null}
      <div className={styles.split}>
        <section className="sheet">
          <h2>Who has a place at the desk</h2>
          <div className="table-region stacks">
            <table>
              <thead>
                <tr>
                  <th scope="col">Name</th>
                  <th scope="col">Role</th>
                  <th scope="col">State</th>
                  <th scope="col">
                    <span className="visually-hidden">Acts</span>
                  </th>
                </tr>
              </thead>
              <tbody>
                {loaded.people.map((person) => (
                  <PersonRow key={person.id} person={person} isSelf={person.id === actor.personId} />
                ))}
              </tbody>
            </table>
          </div>
        </section>
        <section className="sheet">
          <h2>Invite somebody</h2>
          <InviteForm />
        </section>
      </div>
    </DeskShell>
  );
}

function PersonRow({ person, isSelf }: { person: PersonListed; isSelf: boolean }) {
  const { id, name, email, role, disabledAt, hasPassword } = person;
  const personId = <input type="hidden" name="personId" value={id} />;
  return (
    <tr>
      <th scope="row">
        {name}
        {isSelf ? <span className="soft"> (you)</span> : null}
        <span className={`small soft ${styles.email}`}>{email}</span>
      </th>
      <td>
        {isSelf || disabledAt ? (
          ROLE_NAMES[role]
        ) : (
          <form action={changeRoleHere} className={styles.role}>
            {personId}
            <select name="role" defaultValue={role} key={role} aria-label={`Role of ${name}`}>
              {ROLES.map((each) => (
                <option key={each} value={each}>
                  {ROLE_NAMES[each]}
                </option>
              ))}
            </select>
            <button type="submit" className="button plain tight">
              Change<span className="visually-hidden"> the role of {name}</span>
            </button>
          </form>
        )}
      </td>
      <td>{disabledAt ? "disabled" : hasPassword ? "may sign in" : "invited, no password yet"}</td>
      <td>
        <div className={styles.acts}>
          {disabledAt ? (
            <form action={enableHere}>
              {personId}
              <button type="submit" className="link-button">
                Enable<span className="visually-hidden"> {name}</span>
              </button>
            </form>
          ) : (
            <>
              <form action={sendLinkHere}>
                {personId}
                <button type="submit" className="link-button">
                  Send a new password link<span className="visually-hidden"> to {name}</span>
                </button>
              </form>
              {isSelf ? null : (
                <details className={styles.confirm}>
                  <summary>
                    Disable<span className="visually-hidden"> {name}</span>
                  </summary>
                  <form action={disableHere}>
                    {personId}
                    <p className="small">Every session of {name} ends, and their open claims are anybody&rsquo;s again.</p>
                    <button type="submit" className="button tight">
                      Disable {name}
                    </button>
                  </form>
                </details>
              )}
            </>
          )}
        </div>
      </td>
    </tr>
  );
}
