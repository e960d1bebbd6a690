import type { Random } from "./random";

const FIRST_NAMES = [
  "Ada", "Anton", "Bea", "Bruno", "Carla", "Cormac", "Dagny", "Dario", "Edda", "Emil", "Fenna", "Filip", "Greta", "Goran", "Hanne", "Henrik",
  "Ilse", "Ivo", "Jana", "Joost", "Karin", "Kasimir", "Lena", "Lorcan", "Maud", "Milan", "Nadia", "Niels", "Orla", "Oskar", "Pia", "Pavel",
  "Quinn", "Runa", "Rafal", "Sanna", "Sten", "Tilda", "Tomas", "Una", "Viktor", "Wanda", "Wim", "Ylva", "Yann", "Zofia", "Zeno",
] as const;

const LAST_NAMES = [
  "Aldermoor", "Ashvane", "Berrowick", "Blackthwaite", "Calderhey", "Corrigane", "Dunmarsh", "Eastvold", "Ellerholt", "Fallowby", "Farrowdale",
  "Gildermot", "Greymarch", "Hallowin", "Hestwick", "Imberley", "Jarrowen", "Kettlebeck", "Kirkenmoor", "Lathersby", "Lindmoor", "Marlowick",
  "Merrowdale", "Nethercott", "Norvang", "Oakhelm", "Ostermere", "Pellworth", "Quarmby", "Ravensholt", "Rookhaven", "Sallowfield", "Stenmark",
  "Tarrowby", "Thistlewood", "Ullerby", "Vanterpool", "Varleigh", "Wetherholm", "Winterbeck", "Yarrowick", "Zellendorp",
] as const;

const COUNTRIES = { DE: 24, NL: 12, PL: 11, SE: 9, FI: 7, DK: 6, NO: 6, AT: 6, BE: 6, FR: 6, IE: 4, CZ: 3 } as const;

export interface Customer {
  name: string;
  email: string;
  country: string;
}

export function aCustomer(random: Random): Customer {
  const first = random.pick(FIRST_NAMES);
  const last = random.pick(LAST_NAMES);
  const mailbox = `${first}.${last}`.toLowerCase() + random.whole(2, 9999);
  return {
    name: `${first} ${last}`,
    email: `${mailbox}@${random.pick(["example.com", "example.net", "example.org"])}`,
    country: random.weighted(COUNTRIES),
  };
}

const GARAGE_WORDS = ["Motor Works", "Diesel Service", "Garage", "Tuning", "Workshop", "Truck and Tractor", "Auto Repair", "Performance"] as const;
const PLACES = [
  "Brackenhalt", "Nettlesund", "Ostermarsh", "Kaldholm Bay", "Fernmouth Sluice", "Grauwick", "Tallowbridge", "Sandvarn", "Mirrenfeld", "Upper Quelm",
  "Hollernau", "Wrenhaven", "Dornlage", "Eelholm", "Vastermyr", "Larkenau",
] as const;

export interface Fitter {
  id: string;
  name: string;
  place: string;
  /** How often this fitter's work goes wrong, against the average of 1. */
  carelessness: number;
}

/** Garages; three of them are much worse than the rest. */
export function makeFitters(random: Random, count: number): readonly Fitter[] {
  const taken = new Set<string>();
  const fitters: Fitter[] = [];
  while (fitters.length < count) {
    const name = `${random.pick(LAST_NAMES)} ${random.pick(GARAGE_WORDS)}`;
    const place = random.pick(PLACES);
    if (taken.has(name)) continue;
    taken.add(name);
    const carelessness = fitters.length < 3 ? 3.2 : random.logNormal(0.8, 0.35);
    fitters.push({ id: random.uuid(), name, place, carelessness });
  }
  return fitters;
}
