import { isOwnOrigin } from "@/lib/access/own-origin";
import { currentStaff } from "@/lib/access/staff";
import { UPLOAD_PROBLEMS, type UploadProblem } from "@/app/figures/upload-problems";
import { uploadImport } from "@/lib/operations/upload-import";

/**
 * Takes in a file of figures as a posted form. Not through `proxy.ts`, which would hold it in memory; a page is led on to
 * the file or back to the form, a program is answered in JSON.
 */
export async function POST(request: Request): Promise<Response> {
  const isPage = request.headers.get("accept")?.includes("text/html") ?? false;
  const answer = (problem: UploadProblem) => {
    if (isPage && problem !== "wrong-origin" && problem !== "not-allowed") return seeOther(`/figures?problem=${problem}`);
    const [status, message] = UPLOAD_PROBLEMS[problem];
    return Response.json({ problem, message }, { status });
  };
  if (!isOwnOrigin(request.headers.get("origin"))) return answer("wrong-origin");
  const actor = await currentStaff();
  if (!actor) return isPage ? seeOther("/sign-in?next=/figures") : answer("not-signed-in");
  const uploaded = await uploadImport(actor, { contentType: request.headers.get("content-type"), body: request.body });
  if (!uploaded.ok) return answer(uploaded.reason);
  return isPage ? seeOther(`/figures/${uploaded.importId}`) : Response.json({ importId: uploaded.importId }, { status: 201 });
}

const seeOther = (location: string) => new Response(null, { status: 303, headers: { location } });
