import sharp from "sharp";
import { describe, expect, test, vi } from "vitest";
import { receivePhotos } from "@/app/intake/photo-upload";
import { connectionPool, database } from "@/lib/data/client";
import { SHARED_CALLER } from "@/lib/data/rate-limit";
import { env } from "@/lib/env";
import { aDraft } from "../builders/intake";

const MIB = 1024 * 1024;
const BOUNDARY = "photo-form";

/** A post without script whose one photo has `size` bytes, ending not before `until`, and how many of them were asked for. */
function aPostOf(size: number, { origin = env.APP_ORIGIN, until = Promise.resolve() } = {}) {
  const post = { sent: 0, request: new Request(env.APP_ORIGIN) };
  const head = new TextEncoder().encode(`--${BOUNDARY}\r\ncontent-disposition: form-data; name="photo"; filename="a.jpg"\r\ncontent-type: image/jpeg\r\n\r\n`);
  const body = new ReadableStream<Uint8Array>(
    {
      start: (controller) => controller.enqueue(head),
      async pull(controller) {
        if (post.sent >= size) {
          await until;
          controller.enqueue(new TextEncoder().encode(`\r\n--${BOUNDARY}--\r\n`));
          return controller.close();
        }
        post.sent += MIB;
        controller.enqueue(new Uint8Array(MIB));
      },
    },
    { highWaterMark: 0 },
  );
  const headers = { origin, accept: "text/html", "content-type": `multipart/form-data; boundary=${BOUNDARY}` };
  post.request = new Request(`${env.APP_ORIGIN}/intake/photos`, { method: "POST", headers, body, duplex: "half" } as RequestInit);
  return post;
}

async function aFormOf(count: number, accept: string): Promise<Request> {
  const form = new FormData();
  for (let index = 0; index < count; index++) {
    const photo = await sharp({ create: { width: 20 + index, height: 20, channels: 3, background: "#888" } }).jpeg().toBuffer();
    form.append("photo", new Blob([new Uint8Array(photo)], { type: "image/jpeg" }), "photo.jpg");
  }
  return new Request(`${env.APP_ORIGIN}/intake/photos`, { method: "POST", headers: { origin: env.APP_ORIGIN, accept }, body: form });
}

const problemOf = (answer: Response) => new URL(answer.headers.get("location") ?? "/", env.APP_ORIGIN).searchParams.get("problem");

describe("a form of photos", () => {
  test("is kept whole: several photos, one try", async () => {
    const actor = await aDraft();
    const answer = await receivePhotos(await aFormOf(3, "application/json"), actor, "/back");
    expect(answer.status).toBe(201);
    expect(await database().photo.count({ where: { claimId: actor.claimId } })).toBe(3);
    const { rows } = await connectionPool().query("select points from rate_limit where key = $1", [`upload:${SHARED_CALLER}`]);
    expect(rows).toEqual([{ points: 1 }]);
  });

  test("is read no further than one may be large", async () => {
    const post = aPostOf(200 * MIB);
    const answer = await receivePhotos(post.request, await aDraft(), "/back");
    expect([answer.status, problemOf(answer)]).toEqual([303, "too-big"]);
    expect(post.sent).toBeLessThanOrEqual(32 * MIB);
  });

  test("of more photos than a complaint takes is refused before any is looked at", async () => {
    const actor = await aDraft();
    expect((await receivePhotos(await aFormOf(13, "application/json"), actor, "/back")).status).toBe(409);
    expect(await database().photo.count({ where: { claimId: actor.claimId } })).toBe(0);
  });

  test("waits for another time when many large ones come at once, and the room is free again afterwards", async () => {
    const actor = await aDraft();
    let end = () => {};
    const until = new Promise<void>((resolve) => {
      end = resolve;
    });
    const posts = Array.from({ length: 7 }, () => aPostOf(24 * MIB, { until }));
    const answers = posts.map(({ request }) => receivePhotos(request, actor, "/back"));
    await vi.waitFor(() => expect(posts.every(({ sent }) => sent === 24 * MIB)).toBe(true), 5000);
    expect(problemOf(await receivePhotos(aPostOf(24 * MIB).request, actor, "/back"))).toBe("busy");
    end();
    expect(new Set((await Promise.all(answers)).map(problemOf))).toEqual(new Set(["not-a-photo"]));
    expect(problemOf(await receivePhotos(aPostOf(24 * MIB).request, actor, "/back"))).toBe("not-a-photo");
  });

  test("is not read at all from another site, from a stranger, or after too many tries", async () => {
    const [foreign, strange, late] = [aPostOf(MIB, { origin: "https://elsewhere.example" }), aPostOf(MIB), aPostOf(MIB)];
    expect((await receivePhotos(foreign.request, await aDraft(), "/back")).status).toBe(403);
    expect(problemOf(await receivePhotos(strange.request, null, "/back"))).toBe("no-claim");
    await connectionPool().query("update rate_limit set points = 1000000 where key = $1", [`upload:${SHARED_CALLER}`]);
    expect(problemOf(await receivePhotos(late.request, await aDraft(), "/back"))).toBe("too-many-tries");
    expect([foreign.sent, strange.sent, late.sent]).toEqual([0, 0, 0]);
  });
});
