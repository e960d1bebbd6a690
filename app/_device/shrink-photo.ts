const SHRINKER = "/photo-shrinker.js";

/**
 * A photo upright and with 2000 px on its longer side at most, where the browser can read it and it gets smaller; the
 * original otherwise, such as HEIC in most browsers. A worker does it, so that the page goes on answering taps.
 */
export async function shrinkPhoto(original: Blob): Promise<Blob> {
  const worker = new Worker(SHRINKER);
  const smaller = await new Promise<Blob | null>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Blob | null>) => resolve(data);
    worker.onerror = () => resolve(null);
    worker.postMessage(original);
  });
  worker.terminate();
  return smaller && smaller.size < original.size ? smaller : original;
}
