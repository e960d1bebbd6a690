import type { FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { DAY, HOUR, type Instant, isWorkingDay } from "./calendar";
import { ClaimStory } from "./claim-story";
import type { World } from "./world";
import { PAIR_UNIT_OF, type PictureToStore } from "./claims";
import type { Seen } from "./looking";
import type { Fitter } from "./names";
import type { SceneName } from "./photos/scenes";
import type { Shipment } from "./shipments";

/** What the hand-written claims pick their purchases from. */
export interface Stock {
  shipments: readonly Shipment[];
  /** Shipments of which somebody complains already. */
  complainedOf: ReadonlySet<string>;
  fitters: readonly Fitter[];
}

interface Purchase {
  kit: string;
  vehicle?: string;
  revision?: string;
  batch?: string;
  /** About so many days before the end of the story. */
  shippedDaysAgo: number;
  fittedAfterDays: number;
}

export interface Opening {
  purchase: Purchase;
  /** Where the same purchase is complained of a second time. */
  shipment?: Shipment;
  filedBy: Observer;
  name: string;
  words: string;
  /** Days before the end of the story, and the hour of that day. */
  filed: readonly [daysAgo: number, hour: number];
  findings: Readonly<Record<FindingCode, string | number>>;
  scenes: readonly SceneName[];
  distanceKm: number;
  byGarage?: boolean;
}

/** Opens claims that are written by hand, each about a purchase of its own. */
export class OpenedClaims {
  readonly pictures: PictureToStore[] = [];
  readonly #world: World;
  readonly #stock: Stock;
  readonly #taken: Set<string>;

  constructor(world: World, stock: Stock) {
    this.#world = world;
    this.#stock = stock;
    this.#taken = new Set(stock.complainedOf);
  }

  /** That hour so many days before the end of the story. */
  on(daysAgo: number, hour: number): Instant {
    return (Math.floor(this.#world.now / DAY) - daysAgo) * DAY + hour * HOUR;
  }

  /** The claim as it is filed, with its findings and pictures. */
  open(opening: Opening): { story: ClaimStory; shipment: Shipment } {
    const { purchase, filedBy, name, words, filed, findings, scenes, distanceKm, byGarage } = opening;
    const shipment = opening.shipment ?? this.pick(purchase);
    const filedAt = this.on(...filed);
    const email = `${name.toLowerCase().replaceAll(" ", ".")}@example.com`;
    // Whoever complains first is who ordered it.
    if (!opening.shipment) this.#world.tables.amend("order", "number", shipment.orderNumber, { customer_name: name, customer_email: email });
    const story = new ClaimStory(this.#world, {
      filedBy,
      contact: { name, email, phone: `+00 555 ${shipment.orderNumber.slice(-4)}`, country: shipment.customer.country },
      description: words,
      orderNumber: shipment.orderNumber,
      serial: shipment.unit?.serial ?? null,
      shipmentId: shipment.id,
      unitId: shipment.unit?.id ?? null,
      kitId: shipment.kit.id,
      kitRevisionId: shipment.revision.id,
      vehicleId: shipment.vehicle.id,
      fuel: shipment.vehicle.fuel,
      vehicleWords: null,
      pairUnit: PAIR_UNIT_OF[shipment.kit.code] ?? null,
      fitterId: byGarage ? (this.#stock.fitters[0]?.id ?? null) : null,
      fittedOn: Math.min(shipment.shippedOn + purchase.fittedAfterDays, Math.floor(filedAt / DAY)),
      distanceKm,
      hoursRun: null,
      answers: { who: { who: filedBy === "technician" ? "technician" : "owner" }, pictures: { words } },
      createdAt: filedAt - HOUR,
    });
    story.file(filedAt);
    for (const seen of sees(filedBy, findings)) story.see(seen, filedAt);
    story.rank(filedAt);
    this.photograph(story, scenes, filedAt, filedBy);
    return { story, shipment };
  }

  /** That hour so many working days before the end of the story. */
  onWorkday(workdaysAgo: number, hour: number): Instant {
    let day = Math.floor(this.#world.now / DAY);
    for (let left = workdaysAgo; left > 0; left -= isWorkingDay(day) ? 1 : 0) day -= 1;
    return day * DAY + hour * HOUR;
  }

  photograph(story: ClaimStory, scenes: readonly SceneName[], at: Instant, by: Observer): void {
    for (const scene of scenes) this.pictures.push({ storageKey: story.photograph(scene, at, by), scene });
  }

  /** The shipment nearest to the wanted day of those that fit the purchase; nobody else gets it. */
  pick(purchase: Purchase): Shipment {
    const wanted = Math.floor(this.#world.now / DAY) - purchase.shippedDaysAgo;
    let nearest: Shipment | undefined;
    for (const shipment of this.#stock.shipments) {
      const { kit, vehicle, revision, unit } = shipment;
      const fits = unit && kit.code === purchase.kit && vehicle.key === (purchase.vehicle ?? vehicle.key) && revision.revision === (purchase.revision ?? revision.revision) && unit.batch === (purchase.batch ?? unit.batch);
      if (!fits || this.#taken.has(shipment.id)) continue;
      if (!nearest || Math.abs(shipment.shippedOn - wanted) < Math.abs(nearest.shippedOn - wanted)) nearest = shipment;
    }
    if (!nearest) throw new Error(`the demo is too small to hold a shipment of ${purchase.kit} for a hand-written claim`);
    this.#taken.add(nearest.id);
    return nearest;
  }
}

export function sees(observer: Observer, findings: Readonly<Record<FindingCode, string | number>>): readonly Seen[] {
  return Object.entries(findings).map(([code, value]) =>
    typeof value === "number" ? { code, observer, answer: null, measured: value, unit: UNITS[code] ?? "mm" } : { code, observer, answer: value, measured: null, unit: null },
  );
}

/** Units of what is measured here, where it is not a length. */
const UNITS: Readonly<Record<FindingCode, string>> = { F20: "deg", F21: "deg", F29: "kPa", F30: "l/min", F38: "bar" };
