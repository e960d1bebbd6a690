import type { BenchStep } from "@/lib/domain/claims/bench-steps";

/** Names what is typed at one step about the unit of one claim in the copy kept on the device. */
export const stepCopyKey = (claimId: string, step: BenchStep) => `inspection.${claimId}.${step}`;
