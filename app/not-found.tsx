import Link from "next/link";
import { currentWords } from "@/lib/access/language";

export default async function NotFound() {
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words("house.notFound.heading")}</h1>
        <p>{words("house.notFound.text")}</p>
        <p>{words.rich("house.notFound.find", { link: (chunks) => <Link href="/">{chunks}</Link> })}</p>
      </div>
    </main>
  );
}
