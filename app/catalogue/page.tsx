import type { Metadata } from "next";
import Link from "next/link";
import type { ReactNode } from "react";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { BEARING_NAMES, STAGING_NAMES } from "@/lib/domain/catalogue/entries";
import { dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import { type Catalogue, loadCatalogue } from "@/lib/operations/load-catalogue";
import styles from "./catalogue.module.css";
import { found } from "./read-id";
import { Said } from "./said";

export const metadata: Metadata = { title: "Catalogue" };

export default async function CataloguePage({ searchParams }: { searchParams: Promise<{ said?: string; fitter?: string }> }) {
  const actor = await requireStaff("/catalogue");
  const { said, fitter = "" } = await searchParams;
  const catalogue = found(await loadCatalogue(actor, fitter.slice(0, 100)));
  return (
    <DeskShell actor={actor} here="Catalogue">
      <h1>{heading(catalogue)}</h1>
      <Said said={said} />
      <nav aria-label="On this page" className={`${styles.jump} letter no-print`}>
        {PARTS.map(([id, name]) => (
          <a key={id} href={`#${id}`}>
            {name}
          </a>
        ))}
      </nav>
      <p className="small soft">
        Many at once come in, and go out, as files under <Link href="/figures">Figures</Link>.
      </p>
      <Kits catalogue={catalogue} />
      <Vehicles catalogue={catalogue} />
      <TurboModels catalogue={catalogue} />
      <Suppliers catalogue={catalogue} />
      <Fitters catalogue={catalogue} words={fitter} />
    </DeskShell>
  );
}

const PARTS = [
  ["kits", "Kits"],
  ["vehicles", "Vehicles"],
  ["turbo-models", "Turbo models"],
  ["suppliers", "Suppliers"],
  ["fitters", "Fitters"],
] as const;

const many = (count: number, one: string, more: string) => (count === 1 ? `One ${one}` : `${count.toLocaleString("en")} ${more}`);

/** What there is, or the first thing that is missing. */
function heading({ kits, vehicles }: Catalogue): string {
  const unfinished = kits.find(({ revisions, _count }) => revisions.length === 0 || _count.fitments === 0);
  const sold = kits.filter(({ retiredOn }) => retiredOn === null).length;
  if (kits.length === 0) return "There is no kit yet";
  if (unfinished) return `${unfinished.code} ${unfinished.revisions.length === 0 ? "has no revision yet" : "fits no vehicle yet"}`;
  return `${many(sold, "kit is", "kits are")} sold for ${vehicles.length === 1 ? "one vehicle" : `${vehicles.length.toLocaleString("en")} vehicles`}`;
}

function Part({ id, name, add, children }: { id: string; name: string; add?: { href: string; words: string }; children: ReactNode }) {
  return (
    <section className={`sheet ${styles.part}`} id={id}>
      <div className={styles.head}>
        <h2>{name}</h2>
        {add ? <Link href={add.href}>{add.words}</Link> : null}
      </div>
      {children}
    </section>
  );
}

function Kits({ catalogue: { kits } }: { catalogue: Catalogue }) {
  return (
    <Part id="kits" name="Kits" add={{ href: "/catalogue/kits/new", words: "Add a kit" }}>
      <div className="table-region stacks">
        <table>
          <thead>
            <tr>
              <th scope="col">Kit</th>
              <th scope="col">Unit</th>
              <th scope="col">Parts made by</th>
              <th scope="col">Newest revision</th>
              <th scope="col" className="num">
                Vehicles
              </th>
              <th scope="col">Sold</th>
            </tr>
          </thead>
          <tbody>
            {kits.map(({ id, code, name, turboModel, supplier, revisions: [newest, ...earlier], retiredOn, _count }) => (
              <tr key={id}>
                <th scope="row">
                  <Link href={`/catalogue/kits/${id}`}>{code}</Link> {name}
                </th>
                <td>{turboModel ? <Link href={`/catalogue/turbo-models/${turboModel.id}`}>{turboModel.code}</Link> : <span className="soft">none</span>}</td>
                <td data-of="Parts made by">
                  <Maker supplier={supplier} />
                </td>
                <td>{newest ? `${newest.revision}, since ${dayOfColumn(newest.introducedOn)}${earlier.length > 0 ? `; ${earlier.length} before it` : ""}` : "none yet"}</td>
                <td className="num" data-of="Vehicles">{_count.fitments}</td>
                <td data-of="Sold">{retiredOn ? `until ${dayOfColumn(retiredOn)}` : "yes"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Part>
  );
}

function Vehicles({ catalogue: { vehicles } }: { catalogue: Catalogue }) {
  return (
    <Part id="vehicles" name="Vehicles" add={{ href: "/catalogue/vehicles/new", words: "Add a vehicle" }}>
      <div className="table-region stacks">
        <table>
          <thead>
            <tr>
              <th scope="col">Vehicle</th>
              <th scope="col">Fuel</th>
              <th scope="col">Built</th>
              <th scope="col" className="num">
                Kits for it
              </th>
            </tr>
          </thead>
          <tbody>
            {vehicles.map(({ id, make, model, engine, fuel, yearFrom, yearTo, _count }) => (
              <tr key={id}>
                <th scope="row">
                  <Link href={`/catalogue/vehicles/${id}`}>
                    {make} {model} {engine}
                  </Link>
                </th>
                <td>{fuel}</td>
                <td>{yearTo === null ? `since ${yearFrom}` : `${yearFrom} to ${yearTo}`}</td>
                <td className="num" data-of="Kits for it">{_count.fitments}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Part>
  );
}

function TurboModels({ catalogue: { turboModels } }: { catalogue: Catalogue }) {
  return (
    <Part id="turbo-models" name="Turbo models" add={{ href: "/catalogue/turbo-models/new", words: "Add a turbo model" }}>
      <div className="table-region stacks">
        <table>
          <thead>
            <tr>
              <th scope="col">Turbo model</th>
              <th scope="col">Made by</th>
              <th scope="col">Bearing</th>
              <th scope="col">Alone or of a pair</th>
              <th scope="col" className="num">
                Axial play, mm
              </th>
              <th scope="col" className="num">
                Radial up to, mm
              </th>
              <th scope="col" className="num">
                Drain, mm
              </th>
              <th scope="col" className="num">
                Costs you
              </th>
              <th scope="col" className="num">
                Kits
              </th>
            </tr>
          </thead>
          <tbody>
            {turboModels.map((model) => (
              <tr key={model.id}>
                <th scope="row">
                  <Link href={`/catalogue/turbo-models/${model.id}`}>{model.code}</Link> {model.name}
                </th>
                <td data-of="Made by">
                  <Maker supplier={model.supplier} />
                </td>
                <td>{BEARING_NAMES[model.bearing]}</td>
                <td>{STAGING_NAMES[model.staging]}</td>
                <td className="num" data-of="Axial play, mm">
                  {model.axialPlayMinMm} to {model.axialPlayMaxMm}
                </td>
                <td className="num" data-of="Radial up to, mm">{model.radialPlayMaxMm}</td>
                <td className="num" data-of="Drain, mm">{model.drainBoreMm}</td>
                <td className="num" data-of="Costs you">{model.replacementCost?.toLocaleString("en") ?? ""}</td>
                <td className="num" data-of="Kits">{model._count.kits}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Part>
  );
}

function Maker({ supplier }: { supplier: { id: string; name: string } | null }) {
  return supplier ? <Link href={`/catalogue/suppliers/${supplier.id}`}>{supplier.name}</Link> : <span className="soft">not said</span>;
}

function Suppliers({ catalogue: { suppliers } }: { catalogue: Catalogue }) {
  return (
    <Part id="suppliers" name="Suppliers" add={{ href: "/catalogue/suppliers/new", words: "Add a supplier" }}>
      {suppliers.length === 0 ? (
        <p>Add who makes your units and the parts of your kits: a defect is charged back to them.</p>
      ) : (
        <div className="table-region stacks">
          <table>
            <thead>
              <tr>
                <th scope="col">Supplier</th>
                <th scope="col">Mail for claims</th>
                <th scope="col" className="num">
                  Answers within, days
                </th>
                <th scope="col" className="num">
                  Turbo models
                </th>
                <th scope="col" className="num">
                  Parts of kits
                </th>
                <th scope="col">Bought from</th>
              </tr>
            </thead>
            <tbody>
              {suppliers.map(({ id, code, name, email, answerWithinDays, retiredOn, _count }) => (
                <tr key={id}>
                  <th scope="row">
                    <Link href={`/catalogue/suppliers/${id}`}>{code}</Link> {name}
                  </th>
                  <td>{email}</td>
                  <td className="num" data-of="Answers within, days">{answerWithinDays}</td>
                  <td className="num" data-of="Turbo models">{_count.turboModels}</td>
                  <td className="num" data-of="Parts of kits">{_count.kits}</td>
                  <td data-of="Bought from">{retiredOn ? `until ${dayOfColumn(retiredOn)}` : "yes"}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </Part>
  );
}

function Fitters({ catalogue: { fitters, fittersInAll }, words }: { catalogue: Catalogue; words: string }) {
  return (
    <Part id="fitters" name="Fitters">
      <p className="small soft">Named by customers when they file. Say of two that they are the same, and their claims count together.</p>
      <form className={styles.search} action="#fitters">
        <label>
          Name or place
          <input type="search" name="fitter" defaultValue={words} autoComplete="off" />
        </label>
        <button type="submit" className="button tight plain">
          Look
        </button>
      </form>
      {fitters.length === 0 ? (
        <p>No fitter is called that.</p>
      ) : (
        <div className="table-region stacks">
          <table>
            <thead>
              <tr>
                <th scope="col">Fitter</th>
                <th scope="col">Place</th>
                <th scope="col" className="num">
                  Claims
                </th>
              </tr>
            </thead>
            <tbody>
              {fitters.map(({ id, name, place, _count }) => (
                <tr key={id}>
                  <th scope="row">
                    <Link href={`/catalogue/fitters/${id}`}>{name}</Link>
                  </th>
                  <td>{place}</td>
                  <td className="num" data-of="Claims">{_count.claims}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {fittersInAll > fitters.length ? <p className="small soft">The {fitters.length} with most claims of {fittersInAll.toLocaleString("en")}.</p> : null}
    </Part>
  );
}
