"use client";

import { useEffect, useState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import type { FormState } from "@/app/_components/form-state";
import styles from "./inspection.module.css";
import { NotSent } from "./not-sent";
import { useBenchForm } from "./use-bench-form";

interface Props {
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** What the addresses of this inspection's photos begin with. */
  photosAt: string;
}

/** The end of an inspection. It waits for photos on their way: afterwards none can be added. */
export function FinishForm({ action, photosAt }: Props) {
  const { state, isSending, waits, tied } = useBenchForm(action);
  const { values = {}, messages, problem } = state;
  const photos = usePhotosOnTheirWay(photosAt);
  return (
    <form {...tied} className={styles.form}>
      <ErrorSummary errors={[...(problem ? [{ field: "main", message: problem }] : []), ...(messages.note ? [{ field: "note", message: messages.note }] : [])]} />
      <Field id="note" label="Note on the whole (optional)" error={messages.note}>
        <textarea {...describedBy("note", { error: messages.note })} name="note" rows={3} defaultValue={values.note ?? ""} />
      </Field>
      <div className="acts">
        <NotSent waits={waits} className={styles.across} />
        <div role="status" className={styles.across}>
          {photos > 0 ? <p className="note">{photos === 1 ? "One photo is" : `${photos} photos are`} still on the way. Finish once {photos === 1 ? "it has" : "they have"} arrived: afterwards none can be added.</p> : null}
        </div>
        <button type="submit" className={`button ${styles.big}`} disabled={photos > 0} aria-disabled={isSending}>
          Finish the inspection
        </button>
      </div>
    </form>
  );
}

/** How many photos whose addresses begin so are still on this device; they go on from here. */
function usePhotosOnTheirWay(address: string): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    let isHere = true;
    let leave = () => {};
    void import("@/app/_device/photo-sending").then(({ photosOnTheirWay, pickUpPhotos, whenPhotosMove }) => {
      if (!isHere) return;
      const look = () => setCount(photosOnTheirWay().filter(({ reference, state }) => state !== "refused" && state !== "arrived" && reference?.startsWith(address)).length);
      leave = whenPhotosMove(look);
      look();
      void pickUpPhotos();
    });
    return () => {
      isHere = false;
      leave();
    };
  }, [address]);
  return count;
}
