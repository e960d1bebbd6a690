import { currentDraftCustomer } from "@/lib/access/customer";
import { sendPhoto } from "../../photo-upload";

export async function GET(request: Request, { params }: { params: Promise<{ photoId: string }> }) {
  return sendPhoto(request, await currentDraftCustomer(), (await params).photoId);
}
