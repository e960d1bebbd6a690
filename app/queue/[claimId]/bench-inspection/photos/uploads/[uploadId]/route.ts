import { z } from "zod";
import { IS_ID, readPiece } from "@/app/intake/posted-piece";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { BENCH_STEPS } from "@/lib/domain/claims/bench-steps";
import { howMuchArrivedAtBench, receiveBenchPiece } from "@/lib/operations/receive-piece";
import { type BenchPhotoProblem, refuseBenchPhoto } from "../../../photo-problems";

type Context = { params: Promise<{ claimId: string; uploadId: string }> };

/** How much of a photo of the bench has arrived, for the tablet that goes on sending it. */
export async function GET(request: Request, context: Context) {
  const { actor, claimId, uploadId, problem } = await asked(request, context);
  if (problem) return refuseBenchPhoto(problem);
  const arrived = await howMuchArrivedAtBench(actor, claimId, uploadId);
  return arrived.ok ? Response.json({ received: arrived.received, isWhole: arrived.isWhole }) : refuseBenchPhoto(arrived.reason);
}

/** Takes in one piece of a photo of the step in the address, and answers how much has arrived. */
export async function PUT(request: Request, context: Context) {
  if (!isOwnOrigin(request.headers.get("origin"))) return refuseBenchPhoto("wrong-origin");
  const { actor, claimId, uploadId, step, problem } = await asked(request, context);
  if (problem) return refuseBenchPhoto(problem);
  const piece = await readPiece(request, uploadId);
  if (!piece) return refuseBenchPhoto("no-form");
  const taken = await receiveBenchPiece(actor, claimId, step, piece);
  if (!taken.ok && taken.reason !== "another-piece") return refuseBenchPhoto(taken.reason);
  return Response.json({ received: taken.received, isWhole: taken.isWhole }, { status: taken.isWhole ? 201 : 200 });
}

/** Who sends, and what the address names. */
async function asked(request: Request, { params }: Context) {
  const [actor, { claimId, uploadId }] = await Promise.all([currentStaff(), params]);
  const step = z.enum(BENCH_STEPS).safeParse(new URL(request.url).searchParams.get("step"));
  if (!actor) return { problem: "not-signed-in" satisfies BenchPhotoProblem } as const;
  if (!z.guid().safeParse(claimId).success || !step.success) return { problem: "not-on-the-bench" satisfies BenchPhotoProblem } as const;
  if (!IS_ID.test(uploadId)) return { problem: "no-form" satisfies BenchPhotoProblem } as const;
  return { problem: null, actor, claimId, uploadId, step: step.data } as const;
}
