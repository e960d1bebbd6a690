const MOST_PX = 2000;
const JPEG_QUALITY = 0.85;

/**
 * A photo upright and with 2000 px on its longer side at most, where the browser can read it and it gets smaller; the
 * original otherwise, such as HEIC in most browsers.
 */
export async function shrinkPhoto(original: Blob): Promise<Blob> {
  try {
    const upright = await createImageBitmap(original, { imageOrientation: "from-image" });
    const scale = Math.min(1, MOST_PX / Math.max(upright.width, upright.height));
    const [width, height] = [Math.round(upright.width * scale), Math.round(upright.height * scale)];
    // Scaled away from the page's own thread, so that it goes on answering taps.
    const scaled = await createImageBitmap(upright, { resizeWidth: width, resizeHeight: height, resizeQuality: "high" });
    upright.close();
    const canvas = document.createElement("canvas");
    Object.assign(canvas, { width, height });
    // Drawn, not transferred: Chromium transfers the pixels of a turned photo as the camera wrote them.
    canvas.getContext("2d")?.drawImage(scaled, 0, 0, width, height);
    const smaller = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", JPEG_QUALITY));
    return smaller && smaller.size < original.size ? smaller : original;
  } catch {
    return original;
  }
}
