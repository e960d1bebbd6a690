import { takePiece, tellHowMuchArrived } from "@/app/intake/photo-upload";
import { currentCustomer } from "@/lib/access/customer";

type Context = { params: Promise<{ reference: string; uploadId: string }> };

export async function GET(request: Request, { params }: Context) {
  const { reference, uploadId } = await params;
  return tellHowMuchArrived(request, await currentCustomer(reference), uploadId);
}

export async function PUT(request: Request, { params }: Context) {
  const { reference, uploadId } = await params;
  return takePiece(request, await currentCustomer(reference), uploadId);
}
