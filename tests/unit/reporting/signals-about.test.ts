import { describe, expect, it } from "vitest";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { isAbout } from "@/lib/domain/reporting/signals-about";

const revision = (id: string, name: string) => ({ id, revision: name, introducedOn: "2025-01-01", change: "" });
const catalogue: ReportCatalogue = {
  kits: [
    { id: "k1", code: "K-1", name: "First kit", vehicleIds: ["x"], revisions: [revision("1A", "A"), revision("1C", "C")] },
    { id: "k2", code: "K-2", name: "Second kit", vehicleIds: ["x"], revisions: [revision("2C", "C")] },
  ],
  vehicles: [],
};
const nowhere = { kitId: null, kitRevisionId: null, vehicleId: null, batch: null, shippedFrom: null };
const revisionOnVehicle = { ...nowhere, kitId: "k1", kitRevisionId: "1C", vehicleId: "x" };

describe("a signal", () => {
  it("tells of each selection that it is a part of or that is a part of it", () => {
    for (const asked of [{ kit: "K-1" }, { kit: "K-1", vehicle: "x" }, { vehicle: "x" }, { kit: "K-1", revision: "C", vehicle: "x", batch: "B1" }]) expect(isAbout(revisionOnVehicle, asked, catalogue)).toBe(true);
    expect(isAbout({ ...nowhere, kitId: "k1" }, { kit: "K-1", vehicle: "x" }, catalogue)).toBe(true);
    expect(isAbout({ ...nowhere, batch: "B1" }, { batch: "B1", kit: "K-2" }, catalogue)).toBe(true);
  });

  it("does not tell of another kit, revision, vehicle or batch", () => {
    for (const asked of [{ kit: "K-2", vehicle: "x" }, { kit: "K-1", revision: "A" }, { kit: "K-1", vehicle: "y" }, { kit: "K-1", vehicle: "unknown" }]) expect(isAbout(revisionOnVehicle, asked, catalogue)).toBe(false);
    expect(isAbout({ ...nowhere, batch: "B1" }, { batch: "B2" }, catalogue)).toBe(false);
  });

  it("does not tell of a selection that names nothing of it: a batch's would stand on every kit's page", () => {
    expect(isAbout({ ...nowhere, batch: "B1" }, { kit: "K-1", vehicle: "x" }, catalogue)).toBe(false);
    expect(isAbout(revisionOnVehicle, {}, catalogue)).toBe(false);
  });
});
