import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { loadPlaceInIntake } from "@/lib/operations/load-screen";
import { startAnother } from "./actions";

export const metadata: Metadata = { title: "Your complaint" };

/** Goes on where this browser left off; after filing it leads to the claim, never to a second one by accident. */
export default async function IntakePage() {
  const customer = await currentIntakeCustomer();
  if (!customer) redirect("/intake/who");
  if (!customer.isFiled) redirect(`/intake/${(await loadPlaceInIntake(customer.actor)) ?? "review"}`);
  const { reference } = customer.actor;
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>Your complaint {reference} is filed</h1>
        <p>You need not send it again. Its page says what happens next.</p>
        <p>
          <Link className="button" href={`/claim/${reference}`}>
            Open complaint {reference}
          </Link>
        </p>
        <form action={startAnother}>
          <button type="submit" className="button plain">
            Start another complaint
          </button>
        </form>
      </div>
    </main>
  );
}
