import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { loadPlaceInIntake } from "@/lib/operations/load-screen";
import { startAnother } from "./actions";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return { title: words("intake.title") };
}

/** Goes on where this browser left off; after filing it leads to the claim, never to a second one by accident. */
export default async function IntakePage() {
  const customer = await currentIntakeCustomer();
  if (!customer) redirect("/intake/who");
  if (!customer.isFiled) redirect(`/intake/${(await loadPlaceInIntake(customer.actor)) ?? "review"}`);
  const { reference } = customer.actor;
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words("intake.filed.heading", { reference })}</h1>
        <p>{words("intake.filed.text")}</p>
        <p>
          <Link className="button" href={`/claim/${reference}`}>
            {words("intake.filed.open", { reference })}
          </Link>
        </p>
        <form action={startAnother}>
          <button type="submit" className="button plain">
            {words("intake.filed.another")}
          </button>
        </form>
      </div>
    </main>
  );
}
