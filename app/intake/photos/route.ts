import { currentDraftCustomer } from "@/lib/access/customer";
import { receivePhotos } from "../photo-upload";

export async function POST(request: Request) {
  return receivePhotos(request, await currentDraftCustomer(), "/intake/pictures");
}
