/** Beside the button: that what was written waits on this device. Always in the page, so that it is read out once it says something. */
export function NotSent({ waits, className }: { waits: boolean; className?: string | undefined }) {
  return (
    <div role="status" className={className}>
      {waits ? (
        <p className="note">
          <strong>Not sent yet: no signal.</strong> What you wrote stands here and goes by itself as soon as there is one.
        </p>
      ) : null}
    </div>
  );
}
