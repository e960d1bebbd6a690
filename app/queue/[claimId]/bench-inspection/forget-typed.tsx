"use client";

import { useEffect } from "react";
import { forgetTyped } from "@/app/_components/typed-copy";

/** Forgets what was typed on this device, once the server has it. */
export function ForgetTyped({ copyKey }: { copyKey: string }) {
  useEffect(() => forgetTyped(copyKey), [copyKey]);
  return null;
}
