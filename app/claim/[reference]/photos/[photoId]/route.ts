import { photoAnswer } from "@/app/api/photo-answer";
import { currentCustomer } from "@/lib/access/customer";

export async function GET(request: Request, { params }: { params: Promise<{ reference: string; photoId: string }> }) {
  const { reference, photoId } = await params;
  const customer = await currentCustomer(reference);
  return photoAnswer(request, customer, customer?.claimId ?? "", photoId);
}
