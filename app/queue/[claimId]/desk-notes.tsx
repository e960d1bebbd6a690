import type { StaffClaim } from "@/lib/operations/load-claim";
import { DESK_NOTE_FIELDS } from "@/lib/inputs/desk-note";
import type { inZone } from "../times";
import { ActForm } from "./act-form";
import { keepNote } from "./joined-actions";
import css from "./desk-notes.module.css";

/** What the desk writes for itself: on its own ruled slip, so that nobody takes it for a message. */
export function DeskNotes({ claim: { id: claimId, notes }, zone }: { claim: StaffClaim; zone: ReturnType<typeof inZone> }) {
  if (notes === null) return null;
  return (
    <section className={`sheet no-print ${css.slip}`} id="notes">
      <h2>{notes.length === 0 ? "No notes of the desk" : notes.length === 1 ? "One note of the desk" : `${notes.length} notes of the desk`}</h2>
      <p className="small soft">For us alone. No customer, letter or mail ever shows them.</p>
      {notes.map(({ id, body, by, at }) => (
        <div key={id} className={css.note}>
          <span className="small soft">
            {by}, {zone.time(at)}
          </span>
          <p>{body}</p>
        </div>
      ))}
      <ActForm action={keepNote.bind(null, claimId)} fields={DESK_NOTE_FIELDS} label="Keep the note" isPlain />
    </section>
  );
}
