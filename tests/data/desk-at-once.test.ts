import { expect, test } from "vitest";
import { database } from "@/lib/data/client";
import { findLatestRanking } from "@/lib/data/rankings";
import { verdictSchema } from "@/lib/inputs/verdict";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { confirmVerdict } from "@/lib/operations/confirm-verdict";
import { previewVerdict } from "@/lib/operations/preview-verdict";
import { recordFinding } from "@/lib/operations/record-finding";
import { withdrawCheck } from "@/lib/operations/withdraw-check";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim, aForm } from "../builders/intake";

test("two people record the same look at once: both are kept, one stands", async () => {
  const [{ claimId }, support, bench] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("bench")];
  const recorded = await Promise.all([recordFinding(support, claimId, "F12", aForm({ F12: "present", source: "technician" })), recordFinding(bench, claimId, "F12", aForm({ F12: "absent", source: "photo" }))]);
  expect(recorded).toEqual([{ ok: true }, { ok: true }]);
  const kept = await database().finding.findMany({ where: { claimId, code: "F12", observer: "technician" } });
  expect(kept).toHaveLength(2);
  expect(kept.filter(({ replacedAt }) => replacedAt === null)).toHaveLength(1);
});

test("a finding and a verdict at once: the finding comes first or not at all", async () => {
  const [{ claimId }, support, admin] = [await aFiledClaim(), await aStaffActor("support"), await aStaffActor("admin")];
  const [{ version, leaderCause }, kept] = [await database().claim.findUniqueOrThrow({ where: { id: claimId } }), await findLatestRanking(claimId)];
  const input = verdictSchema.parse({ primaryCause: leaderCause, origin: "fitter", basis: "customer_word", remedy: "advice", version, rankingId: kept?.id });
  const preview = await previewVerdict(admin, claimId, input);
  const letterSeen = preview.ok ? preview.fingerprint : "";
  const [found, decided] = await Promise.all([recordFinding(support, claimId, "F17", aForm({ F17: "present", source: "technician" })), confirmVerdict(admin, claimId, { ...input, letterSeen })]);
  if (found.ok) expect(decided).toEqual({ ok: false, reason: "ranked-meanwhile" });
  else {
    expect(found).toEqual({ ok: false, reason: "not-legal-here", stage: "decided" });
    expect(decided.ok).toBe(true);
  }
  expect(await recordFinding(support, claimId, "F17", aForm({ F17: "present", source: "technician" }))).toMatchObject({ ok: found.ok });
});

test("two checks asked at once, and taken back at once, leave the claim in review", async () => {
  const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
  const asked = await Promise.all(["F25", "F15"].map((code) => askForCheck(support, claimId, code, aForm({ note: "" }))));
  expect(asked).toEqual([{ ok: true }, { ok: true }]);
  const requests = await database().checkRequest.findMany({ where: { claimId } });
  expect(await Promise.all(requests.map(({ id }) => withdrawCheck(support, claimId, id)))).toEqual([{ ok: true }, { ok: true }]);
  expect((await database().claim.findUniqueOrThrow({ where: { id: claimId } })).stage).toBe("in_review");
});
