import "@fontsource/barlow-semi-condensed/latin-500.css";
import "@fontsource/barlow-semi-condensed/latin-600.css";
import "./sheet.css";
import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import { DrawingPatterns } from "./_components/drawing-patterns";

export const metadata: Metadata = {
  title: { default: "Fit or Fault", template: "%s - Fit or Fault" },
  description: "A freshly fitted turbo leaks oil: how it was fitted, or the unit?",
  robots: { index: false },
};

export const viewport: Viewport = { width: "device-width", initialScale: 1 };

// A nonce for scripts is made for each request, so no page may be rendered ahead of it.
export const dynamic = "force-dynamic";

export default function RootLayout({ children }: { children: ReactNode }) {
  return (
    <html lang="en">
      <body>
        <a className="skip" href="#main">
          Skip to the main part
        </a>
        <DrawingPatterns />
        {children}
      </body>
    </html>
  );
}
