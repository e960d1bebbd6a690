/** The worker that shrinks photos on the device: given a photo it answers with a smaller one, or with null where the browser cannot read it. */
const SCRIPT = `
const MOST_PX = 2000;
const JPEG_QUALITY = 0.85;

async function shrink(original) {
  const upright = await createImageBitmap(original, { imageOrientation: "from-image" });
  const scale = Math.min(1, MOST_PX / Math.max(upright.width, upright.height));
  const canvas = new OffscreenCanvas(Math.round(upright.width * scale), Math.round(upright.height * scale));
  const context = canvas.getContext("2d");
  context.imageSmoothingQuality = "high";
  // Drawn, not transferred: Chromium transfers the pixels of a turned photo as the camera wrote them.
  context.drawImage(upright, 0, 0, canvas.width, canvas.height);
  upright.close();
  return canvas.convertToBlob({ type: "image/jpeg", quality: JPEG_QUALITY });
}

self.onmessage = ({ data }) => shrink(data).catch(() => null).then((smaller) => self.postMessage(smaller));
`;

export function GET() {
  return new Response(SCRIPT, { headers: { "content-type": "text/javascript; charset=utf-8", "cache-control": "public, max-age=86400" } });
}
