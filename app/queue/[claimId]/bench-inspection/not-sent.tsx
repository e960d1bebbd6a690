import styles from "./inspection.module.css";

/** Beside the button: that what was written waits on this device. Always in the page, so that it is read out once it says something. */
export function NotSent({ waits }: { waits: boolean }) {
  return (
    <div role="status" className={styles.across}>
      {waits ? (
        <p className="note">
          <strong>Not sent yet: no signal.</strong> What you wrote stands here and goes by itself as soon as there is one.
        </p>
      ) : null}
    </div>
  );
}
