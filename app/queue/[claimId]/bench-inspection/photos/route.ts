import { z } from "zod";
import { withForm } from "@/app/intake/photo-form";
import { isOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { BENCH_STEPS } from "@/lib/domain/claims/bench-steps";
import { attachBenchPhoto } from "@/lib/operations/attach-bench-photo";
import { type BenchPhotoProblem, refuseBenchPhoto } from "../photo-problems";

const MOST_AT_ONCE = 6;

/** Takes in photos of one step, `?step=rings`; a form sent without script is led back to it. */
export async function POST(request: Request, { params }: { params: Promise<{ claimId: string }> }) {
  const claimId = z.guid().safeParse((await params).claimId);
  const step = z.enum(BENCH_STEPS).safeParse(new URL(request.url).searchParams.get("step"));
  if (!claimId.success || !step.success) return refuseBenchPhoto("not-on-the-bench");
  const back = `/queue/${claimId.data}/bench-inspection?step=${step.data}`;
  const isPage = request.headers.get("accept")?.includes("text/html") ?? false;
  const answer = (problem: BenchPhotoProblem) => {
    if (isPage && problem !== "wrong-origin") return seeOther(`${back}&photo=${problem}`);
    return refuseBenchPhoto(problem);
  };
  if (!isOwnOrigin(request.headers.get("origin"))) return answer("wrong-origin");
  const actor = await currentStaff();
  if (!actor) return answer("not-signed-in");
  const kept = await withForm(request, async (form): Promise<BenchPhotoProblem | null> => {
    const files = form.getAll("photo").filter((value) => value instanceof File && value.size > 0) as File[];
    if (files.length === 0 || files.length > MOST_AT_ONCE) return "no-form";
    for (const file of files) {
      const attached = await attachBenchPhoto(actor, claimId.data, step.data, new Uint8Array(await file.arrayBuffer()));
      if (!attached.ok) return attached.reason;
    }
    return null;
  });
  if (kept) return answer(kept);
  return isPage ? seeOther(back) : Response.json({ ok: true }, { status: 201 });
}

const seeOther = (location: string) => new Response(null, { status: 303, headers: { location } });
