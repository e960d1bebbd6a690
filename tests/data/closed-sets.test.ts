import { expect, it } from "vitest";
import * as stored from "@/lib/data/generated/enums";
import { BEARINGS, FUELS, STAGINGS } from "@/lib/domain/catalogue/entries";
import { BOOKING_KINDS } from "@/lib/domain/claims/bookings";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { PAIR_UNITS } from "@/lib/domain/claims/pair-units";
import { PARCEL_CONDITIONS, PLACE_KINDS } from "@/lib/domain/claims/custody";
import { BENCH_STEPS } from "@/lib/domain/claims/bench-steps";
import { CHARGEBACK_STATES } from "@/lib/domain/claims/chargeback";
import { DISPOSITIONS } from "@/lib/domain/claims/dispositions";
import { PARCEL_REASONS } from "@/lib/domain/claims/parcels";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { ROLES } from "@/lib/domain/claims/roles";
import { CLAIM_STAGES, RETURN_STATES } from "@/lib/domain/claims/stages";
import { UNIT_SYSTEMS } from "@/lib/domain/claims/unit-systems";
import { VERDICT_BASES, VERDICT_WAYS } from "@/lib/domain/claims/verdict";
import { ATTRIBUTIONS, ORIGINS } from "@/lib/domain/diagnosis/attributions";
import { EDITION_ORIGINS, TRIAL_KINDS } from "@/lib/domain/diagnosis/editions";
import { OBSERVERS } from "@/lib/domain/diagnosis/knowledge";
import { IMPORT_KINDS, IMPORT_STATES } from "@/lib/domain/imports/kinds";
import { SIGNAL_ACTS } from "@/lib/domain/reporting/signals-acts";

it.each([
  ["stages", CLAIM_STAGES, stored.ClaimStage],
  ["kinds of place", PLACE_KINDS, stored.PlaceKind],
  ["reasons of a parcel", PARCEL_REASONS, stored.ParcelReason],
  ["conditions of a parcel", PARCEL_CONDITIONS, stored.ParcelCondition],
  ["return states", RETURN_STATES, stored.ReturnState],
  ["steps of the bench", BENCH_STEPS, stored.BenchStep],
  ["states of a chargeback", CHARGEBACK_STATES, stored.ChargebackState],
  ["dispositions", DISPOSITIONS, stored.DispositionKind],
  ["attributions", ATTRIBUTIONS, stored.Attribution],
  ["origins", ORIGINS, stored.Origin],
  ["languages", LANGUAGES, stored.Language],
  ["systems of units", UNIT_SYSTEMS, stored.Units],
  ["units of a pair", PAIR_UNITS, stored.PairUnit],
  ["remedies", REMEDIES, stored.Remedy],
  ["bearings", BEARINGS, stored.Bearing],
  ["stages of a unit", STAGINGS, stored.Staging],
  ["fuels", FUELS, stored.Fuel],
  ["kinds of booking", BOOKING_KINDS, stored.SettlementKind],
  ["roles", ROLES, stored.Role],
  ["ways of a verdict", VERDICT_WAYS, stored.VerdictWay],
  ["bases of a verdict", VERDICT_BASES, stored.VerdictBasis],
  ["observers", OBSERVERS, stored.Observer],
  ["origins of an edition", EDITION_ORIGINS, stored.EditionOrigin],
  ["kinds of trial", TRIAL_KINDS, stored.TrialKind],
  ["kinds of import", IMPORT_KINDS, stored.ImportKind],
  ["states of an import", IMPORT_STATES, stored.ImportState],
  ["acts on a signal", SIGNAL_ACTS, stored.SignalAct],
])("the %s of the domain are those of the database, in the same order", (_name, domain, database) => {
  expect(Object.values(database)).toEqual(domain);
});
