import Link from "next/link";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { queryOf, queueAddress, queueFilterSchema } from "@/lib/inputs/queue-filter";
import type { Queue } from "@/lib/operations/load-queue";
import { ActForm } from "./[claimId]/act-form";
import { KeyHint } from "./keys";
import css from "./views.module.css";
import { keepView, removeView, startWithView } from "./view-actions";

const PLAIN = queueFilterSchema.parse({});

/** Views that everybody has. */
const USUAL: readonly { name: string; query: string }[] = [
  { name: "All that wait", query: "" },
  { name: "In my hand", query: queryOf({ ...PLAIN, who: "mine" }) },
  { name: "Late", query: queryOf({ ...PLAIN, mark: "late" }) },
  { name: "The customer wrote", query: queryOf({ ...PLAIN, mark: "wrote" }) },
  { name: "Back with answers", query: queryOf({ ...PLAIN, mark: "back" }) },
];

/** The views of the queue as a line of links, the usual ones and one's own, and the way to keep the one that is shown. */
export function Views({ filter, filters }: { filter: QueueFilter; filters: Queue["filters"] }) {
  const here = queryOf({ ...filter, page: 1 });
  const named = [...USUAL.map((view) => ({ ...view, id: view.name, isStart: false })), ...filters];
  return (
    <div className={`${css.views} no-print`}>
      <nav aria-label="Views">
        <ul>
          {named.map(({ id, name, query, isStart }, index) => (
            <li key={id}>
              <Link href={query ? `/queue?${query}` : "/queue"} {...(index < 9 ? { "data-key": String(index + 1) } : {})} {...(query === here ? { "aria-current": "page" as const } : {})}>
                {name}
                {isStart ? <span className="soft">, first</span> : null} {index < 9 ? <KeyHint sign={String(index + 1)} /> : null}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <details className={css.keep}>
        <summary>Keep and arrange views</summary>
        <ActForm
          action={keepView.bind(null, here)}
          label="Keep what is shown as a view"
          isPlain
          className={css.name ?? ""}
          fields={[{ name: "name", kind: "text", label: "Name of the view that is shown now", longest: 40, missing: "Give it a name" }]}
        />
        {filters.length > 0 ? (
          <ul className={css.own}>
            {filters.map(({ id, name, query, isStart }) => (
              <li key={id}>
                <Link href={queueAddress(filterOf(query))}>{name}</Link>
                <form action={startWithView.bind(null, isStart ? null : id, here)}>
                  <button type="submit" className="link-button small">
                    {isStart ? "Do not begin with it" : "Begin with it after signing in"}
                    <span className="visually-hidden">: {name}</span>
                  </button>
                </form>
                <form action={removeView.bind(null, id, here)}>
                  <button type="submit" className="link-button small">
                    Remove<span className="visually-hidden"> {name}</span>
                  </button>
                </form>
              </li>
            ))}
          </ul>
        ) : null}
        <p className="small soft">A view is yours alone. Its address can be passed on: it shows the same to whoever may see the queue.</p>
      </details>
    </div>
  );
}

const filterOf = (query: string) => queueFilterSchema.parse(Object.fromEntries(new URLSearchParams(query)));
