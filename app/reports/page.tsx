import { redirect } from "next/navigation";

/** There is one report yet. */
export default function ReportsPage(): never {
  redirect("/reports/causes");
}
