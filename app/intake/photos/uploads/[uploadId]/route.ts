import type { CustomerActor } from "@/lib/access/actors";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { takePiece, tellHowMuchArrived } from "../../../photo-upload";

type Context = { params: Promise<{ uploadId: string }> };

export async function GET(request: Request, { params }: Context) {
  return tellHowMuchArrived(request, await writerOf(request), (await params).uploadId);
}

export async function PUT(request: Request, { params }: Context) {
  return takePiece(request, await writerOf(request), (await params).uploadId);
}

/** Who writes the complaint that the photo was taken for, also once it is filed: the browser may have begun another since. */
async function writerOf(request: Request): Promise<CustomerActor | null> {
  const customer = await currentIntakeCustomer();
  return customer && customer.actor.reference === new URL(request.url).searchParams.get("of") ? customer.actor : null;
}
