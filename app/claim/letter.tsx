import css from "./claim.module.css";

/** A letter as it was sent: paragraphs parted by an empty line, a heading on the first line of some, as in its PDF. */
export function Letter({ text }: { text: string }) {
  return text.split("\n\n").map((paragraph, place) => {
    const [first = "", ...rest] = paragraph.split("\n");
    const isHeaded = rest.length > 0 && first.endsWith(":");
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: the paragraphs of a letter never move.
      <div key={place} className={css.letter}>
        {isHeaded ? <h3>{first.slice(0, -1)}</h3> : null}
        <p>{isHeaded ? rest.join("\n") : paragraph}</p>
      </div>
    );
  });
}
