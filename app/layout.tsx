import "@fontsource/barlow-semi-condensed/latin-500.css";
import "@fontsource/barlow-semi-condensed/latin-600.css";
import "./lettering.css";
import "./sheet.css";
import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import { currentWords, isCustomerPage } from "@/lib/access/language";
import { currentUnits } from "@/lib/access/units";
import { textsOf } from "@/lib/messages/words";
import { DrawingPatterns } from "./_components/drawing-patterns";
import { Device } from "./_device/device";
import { BrowserWords } from "./_language/browser-words";
import { LanguageSwitch } from "./_language/language-switch";
import css from "./_language/switches.module.css";
import { UnitsSwitch } from "./_language/units-switch";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return {
    title: { default: "Fit or Fault", template: "%s - Fit or Fault" },
    description: words("house.description"),
    robots: { index: false },
  };
}

export const viewport: Viewport = { width: "device-width", initialScale: 1 };

// A nonce for scripts is made for each request, so no page may be rendered ahead of it.
export const dynamic = "force-dynamic";

export default async function RootLayout({ children }: { children: ReactNode }) {
  const [words, isForCustomers] = await Promise.all([currentWords(), isCustomerPage()]);
  return (
    <html lang={words.language}>
      <body>
        <a className="skip" href="#main">
          {words("house.skip")}
        </a>
        <DrawingPatterns />
        {isForCustomers ? (
          <div className={`${css.switches} no-print`}>
            <UnitsSwitch units={await currentUnits()} words={words} />
            <LanguageSwitch language={words.language} label={words("house.language")} />
          </div>
        ) : null}
        {isForCustomers ? <Device texts={textsOf(words.language, "device")} language={words.language} /> : null}
        <BrowserWords texts={textsOf(words.language, "browser")} language={words.language}>
          {children}
        </BrowserWords>
      </body>
    </html>
  );
}
