import { sendPhoto } from "@/app/intake/photo-upload";
import { currentCustomer } from "@/lib/access/customer";

export async function GET(request: Request, { params }: { params: Promise<{ reference: string; photoId: string }> }) {
  const { reference, photoId } = await params;
  return sendPhoto(request, await currentCustomer(reference), photoId);
}
