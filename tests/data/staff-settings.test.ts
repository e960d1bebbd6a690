import { describe, expect, test } from "vitest";
import { database } from "@/lib/data/client";
import { loadSettings } from "@/lib/data/settings";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import { settingsSchema } from "@/lib/inputs/settings";
import { changeSettings, loadSettingsToChange } from "@/lib/operations/change-settings";
import { aStaffActor } from "@/tests/builders/a-person";

const TYPED = {
  name: " Brackenhalt Turbo Supply ",
  returnAddress: "Hall 3\nSlipway Lane 14",
  email: "Desk@Brackenhalt.example",
  phone: "",
  currency: "gbp",
  timeZone: "Europe/London",
  workingDays: ["1", "2", "6"],
  opensAt: "07:30",
  closesAt: "16:00",
  promisedAnswerHours: "4",
  returnWithinDays: "14",
  firstReminderDays: "4",
  secondReminderDays: "8",
  lapseNoticeDays: "10",
  lapseDays: "14",
  secondOpinionShare: "10",
  secondPersonAbove: "400",
  unitCost: "560",
  unitPrice: "890",
  repairCost: "210,50",
  partCost: "55",
  carriageCost: "18",
  goodwillCost: "110",
  needlessReturnCost: "120",
  missedDefectCost: "700",
  wrongAdviceCost: "45,50",
  customerMinute: "0.2",
  technicianMinute: "0,8",
  benchMinute: "1",
  lowCheck: "12",
  middleCheck: "90",
  highCheck: "250",
  cautionCost: "0",
};

describe("the seller's settings", () => {
  test("are kept as typed, and the trail says which were changed", async () => {
    const admin = await aStaffActor("admin");
    const read = await loadSettingsToChange(admin);
    expect(await changeSettings(admin, settingsSchema.parse(TYPED), read.ok ? read.seen : "")).toEqual({ ok: true });
    expect(await loadSettings()).toMatchObject({ name: "Brackenhalt Turbo Supply", email: "desk@brackenhalt.example", currency: "GBP", workingDays: [1, 2, 6], promisedAnswerHours: 4, wrongAdviceCost: 45.5 });
    expect(stakesOf(await loadSettings())).toMatchObject({ needlessReturn: 120, missedDefect: 700, minute: { technician: 0.8 }, money: { none: 0, middle: 90 }, caution: 0 });
    const line = await database().auditEntry.findFirstOrThrow({ where: { action: "change_settings" }, orderBy: { id: "desc" } });
    expect(line.detail).toMatchObject({ changed: expect.arrayContaining(["currency", "timeZone", "workingDays"]) });
  });

  test("of two people at once keep the first, and tell the second", async () => {
    const admin = await aStaffActor("admin");
    const read = await loadSettingsToChange(admin);
    const seen = read.ok ? read.seen : "";
    const both = await Promise.all(["3", "5"].map((promisedAnswerHours) => changeSettings(admin, settingsSchema.parse({ ...TYPED, promisedAnswerHours }), seen)));
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    const told = both.find(({ ok }) => !ok);
    expect(told).toMatchObject({ reason: "changed-meanwhile" });
    // Having been told, they may decide.
    expect(await changeSettings(admin, settingsSchema.parse(TYPED), told && "seen" in told ? told.seen : "")).toEqual({ ok: true });
  });

  test.each([
    ["timeZone", "Mars/Olympus", "Write a time zone, as Europe/Berlin"],
    ["currency", "ZZQ", "Write the three letters of a currency, as EUR"],
    ["closesAt", "07:00", "It must be later than the opening"],
    ["workingDays", [], "Tick the days on which somebody answers"],
    ["promisedAnswerHours", "0", "Write a number from 1 to 200"],
    ["promisedAnswerHours", "8,5", "Write a whole number"],
    ["needlessReturnCost", "0", "Write a number from 1 to 100000"],
    ["missedDefectCost", "a lot", "Write a number, as 12.50"],
    ["wrongAdviceCost", "-1", "Write a number from 0 to 100000"],
    ["technicianMinute", "0", "Write a number from 0.01 to 100"],
    ["highCheck", "50", "It must be no less than the class below"],
    ["opensAt", "25:00", "Write the time as 08:00"],
    ["name", "x".repeat(10_000), "Use 100 characters or fewer. Yours is kept here for you to shorten"],
  ])("refuse %s %j beside the field", (field, value, message) => {
    const read = settingsSchema.safeParse({ ...TYPED, [field]: value });
    expect(read.error?.issues.map(({ path, message: said }) => [path.join("."), said])).toContainEqual([field, message]);
  });
});
