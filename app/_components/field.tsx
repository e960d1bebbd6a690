import type { ReactNode } from "react";

/** A label, an optional hint, the message when refused, and the control. The control's id is `id`. */
export function Field({
  id,
  label,
  hint,
  error,
  children,
}: {
  id: string;
  label: ReactNode;
  hint?: ReactNode;
  error?: string | undefined;
  children: ReactNode;
}) {
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {hint ? (
        <span className="small soft" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {error ? (
        <span className="error" id={`${id}-error`}>
          {error}
        </span>
      ) : null}
      {children}
    </div>
  );
}

/** The attributes that tie a control to its hint and its message. */
export function describedBy(id: string, { hint, error }: { hint?: boolean; error?: string | undefined }) {
  const ids = [hint ? `${id}-hint` : null, error ? `${id}-error` : null].filter(Boolean).join(" ");
  return { id, ...(ids ? { "aria-describedby": ids } : {}), ...(error ? { "aria-invalid": true as const } : {}) };
}
