import { photoAnswer } from "@/app/api/photo-answer";
import { currentStaff } from "@/lib/access/staff";

export async function GET(request: Request, { params }: { params: Promise<{ claimId: string; photoId: string }> }) {
  const { claimId, photoId } = await params;
  return photoAnswer(request, await currentStaff(), claimId, photoId);
}
