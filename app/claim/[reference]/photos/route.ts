import { receivePhotos } from "@/app/intake/photo-upload";
import { currentCustomer } from "@/lib/access/customer";

export async function POST(request: Request, { params }: { params: Promise<{ reference: string }> }) {
  const { reference } = await params;
  return receivePhotos(request, await currentCustomer(reference), `/claim/${encodeURIComponent(reference)}`);
}
