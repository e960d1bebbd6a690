import { photoAnswer } from "@/app/api/photo-answer";
import { currentDraftCustomer } from "@/lib/access/customer";

export async function GET(request: Request, { params }: { params: Promise<{ photoId: string }> }) {
  const customer = await currentDraftCustomer();
  return photoAnswer(request, customer, customer?.claimId ?? "", (await params).photoId);
}
