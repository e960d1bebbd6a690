import { randomUUID } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { loadSettings } from "@/lib/data/settings";
import { may, type Permission } from "@/lib/domain/claims/permissions";
import { ROLES, type Role } from "@/lib/domain/claims/roles";
import { deskFileSchema } from "@/lib/inputs/desk-filter";
import { queueFilterSchema } from "@/lib/inputs/queue-filter";
import { causesFilterSchema, claimsBehindFilterSchema } from "@/lib/inputs/report-filter";
import { forecastFilterSchema, monthsFilterSchema, toClaimFilterSchema } from "@/lib/inputs/time-filter";
import { verdictSchema } from "@/lib/inputs/verdict";
import type { TermsForm } from "@/lib/inputs/warranty";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { askToLearn } from "@/lib/operations/learn-edition";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { bookSettlement } from "@/lib/operations/book-settlement";
import { changeRole } from "@/lib/operations/change-role";
import { changeSettings, loadSettingsToChange } from "@/lib/operations/change-settings";
import { confirmVerdict } from "@/lib/operations/confirm-verdict";
import { correctSerialSeen } from "@/lib/operations/correct-serial-seen";
import { discardEdition, promoteEdition } from "@/lib/operations/decide-edition";
import { decideOnSignal } from "@/lib/operations/decide-on-signal";
import { disablePerson } from "@/lib/operations/disable-person";
import { askForDryRun } from "@/lib/operations/dry-run";
import { dropEditionDraft, keepEdits, loadEditionDraft, openEditionDraft, proposeDraft } from "@/lib/operations/edition-drafts";
import { enablePerson } from "@/lib/operations/enable-person";
import { exportCausesOfASelection } from "@/lib/operations/export-causes-of-a-selection";
import { exportEdition, proposeEditionFile } from "@/lib/operations/exchange-edition";
import { exportForecast, exportMonthsReport, exportTimeToClaim } from "@/lib/operations/export-time-reports";
import { exportCausesReport } from "@/lib/operations/export-causes-report";
import { exportClaimsBehind } from "@/lib/operations/export-claims-behind";
import { exportDeskQuality } from "@/lib/operations/export-desk-quality";
import { giveSecondOpinion } from "@/lib/operations/give-second-opinion";
import { invitePerson } from "@/lib/operations/invite-person";
import { loadCausesOfASelection } from "@/lib/operations/load-causes-of-a-selection";
import { loadForecast } from "@/lib/operations/load-forecast";
import { loadMonthsReport } from "@/lib/operations/load-months-report";
import { loadTimeToClaim } from "@/lib/operations/load-time-to-claim";
import { loadCausesReport } from "@/lib/operations/load-causes-report";
import { exportCatalogue } from "@/lib/operations/export-import-kind";
import { exportImportProblems, loadImport, loadImports, openImportFile } from "@/lib/operations/load-import";
import { changeReading, startImport, takeBackImport } from "@/lib/operations/start-import";
import { uploadImport } from "@/lib/operations/upload-import";
import { importReadingSchema } from "@/lib/inputs/import";
import { loadCatalogue, loadEntry, loadKit, loadSupplier, loadTurboModel } from "@/lib/operations/load-catalogue";
import { joinFitters, keepInCatalogue, removeFromCatalogue } from "@/lib/operations/keep-in-catalogue";
import { loadClaim } from "@/lib/operations/load-claim";
import { loadClaimsBehind } from "@/lib/operations/load-claims-behind";
import { loadDeskClaims, loadDeskQuality } from "@/lib/operations/load-desk-quality";
import { loadEditions, loadKnowledge, loadTrial } from "@/lib/operations/load-knowledge";
import { loadLearning } from "@/lib/operations/load-learning";
import { loadLetter, makeLetterFile } from "@/lib/operations/load-letter";
import { endDeposit } from "@/lib/operations/end-deposit";
import { exportBookings, loadBookings } from "@/lib/operations/load-bookings";
import { loadVerdictMatter } from "@/lib/operations/load-verdict-matter";
import { loadWarranty } from "@/lib/operations/load-warranty";
import { approveVerdict, sendBackVerdict, takeBackVerdict } from "@/lib/operations/second-look";
import { settleClaim } from "@/lib/operations/settle-claim";
import { draftTerms, dropTermsDraft, keepTermsDraft, loadWarrantyTerms, putDraftInForce } from "@/lib/operations/warranty-terms";
import { loadMail, loadMails } from "@/lib/operations/load-mail";
import { loadPeople } from "@/lib/operations/load-people";
import { actOnSeveral, previewSeveral } from "@/lib/operations/act-on-several";
import { beInClaim, leaveClaim, whoElseIsIn } from "@/lib/operations/be-in-claim";
import { loadPlaceInQueue } from "@/lib/operations/load-place-in-queue";
import { loadQuietState } from "@/lib/operations/load-quiet-state";
import { loadBounce, sayReached } from "@/lib/operations/note-bounce";
import { holdLapse, remindNow } from "@/lib/operations/remind-of-checks";
import { keepFilter, removeFilter, startWithFilter } from "@/lib/operations/saved-filters";
import { searchForClaims } from "@/lib/operations/search-claims";
import { fileCall, loadCall, loadOpenCalls, saveCall, startCall } from "@/lib/operations/take-down-call";
import { loadQueue } from "@/lib/operations/load-queue";
import { loadReportChoices } from "@/lib/operations/load-report-choices";
import { loadReturns, loadReturnsOfClaim } from "@/lib/operations/load-returns";
import { loadBlindClaim, loadSecondOpinionOfClaim, loadSecondOpinions } from "@/lib/operations/load-second-opinions";
import { loadSettlements } from "@/lib/operations/load-settlements";
import { loadSignal, loadSignals, loadWaitingSignals } from "@/lib/operations/load-signals";
import { askToLook } from "@/lib/operations/look-for-signals";
import { exportSignals } from "@/lib/operations/export-signals";
import { needNoAnswer } from "@/lib/operations/need-no-answer";
import { previewVerdict } from "@/lib/operations/preview-verdict";
import { proposeEdition } from "@/lib/operations/propose-edition";
import { rankAnew } from "@/lib/operations/rank-anew";
import { addPlace, loadPlaces, retirePlace } from "@/lib/operations/change-places";
import { closeParcel, matchParcel } from "@/lib/operations/decide-on-parcel";
import { giveUpReturn } from "@/lib/operations/end-return";
import { handOver } from "@/lib/operations/hand-over";
import { loadScanned } from "@/lib/operations/load-scanned";
import { prolongReturn } from "@/lib/operations/prolong-return";
import { setUnitAside, takeForSameUnit } from "@/lib/operations/settle-serial";
import { takeInParcel } from "@/lib/operations/take-in-parcel";
import { recordCarriage } from "@/lib/operations/tell-carriage";
import { receiveReturn } from "@/lib/operations/receive-return";
import { attachBenchPhoto } from "@/lib/operations/attach-bench-photo";
import { beginChargeback } from "@/lib/operations/begin-chargeback";
import { bookSupplierAnswers, closeChargeback, dropChargeback, sendChargeback, takeOutLine } from "@/lib/operations/change-chargeback";
import { exportChargeback } from "@/lib/operations/export-chargeback";
import { loadChargeback, loadChargebacks } from "@/lib/operations/load-chargebacks";
import { decideDisposition, loadDisposition, loadEvidence } from "@/lib/operations/decide-disposition";
import { finishInspection } from "@/lib/operations/finish-inspection";
import { loadInspection } from "@/lib/operations/load-inspection";
import { openInspection, takeOverInspection } from "@/lib/operations/open-inspection";
import { howMuchArrivedAtBench, receiveBenchPiece } from "@/lib/operations/receive-piece";
import { saveInspectionStep } from "@/lib/operations/save-inspection-step";
import { recordFinding } from "@/lib/operations/record-finding";
import { reopenOnAppeal } from "@/lib/operations/reopen-on-appeal";
import { reverseSettlement } from "@/lib/operations/reverse-settlement";
import { sendPasswordLink } from "@/lib/operations/send-password-link";
import { loadSupplierMatter, writeSupplierSummary } from "@/lib/operations/supplier-summary";
import { takeClaim } from "@/lib/operations/take-claim";
import { withdrawCheck } from "@/lib/operations/withdraw-check";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { dropMessageTemplate, keepMessageTemplate, loadMessageTemplates } from "@/lib/operations/message-templates";
import { linkClaims, unlinkClaims } from "@/lib/operations/link-claims";
import { loadCustomerHistory } from "@/lib/operations/load-customer-history";
import { loadElsewhere } from "@/lib/operations/load-elsewhere";
import { loadFilledTemplate } from "@/lib/operations/load-filled-template";
import { loadJoinedClaims } from "@/lib/operations/load-joined-claims";
import { loadMarkedPhoto } from "@/lib/operations/load-marked-photo";
import { markPhoto, removePhotoMark } from "@/lib/operations/mark-photo";
import { mergeClaim, takeApart } from "@/lib/operations/merge-claims";
import { namePairUnit } from "@/lib/operations/name-pair-unit";
import { writeDeskNote } from "@/lib/operations/write-desk-note";
import { aPerson, aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim, aForm } from "@/tests/builders/intake";

interface Target {
  claimId: string;
  personId: string;
}

const PERIOD = { from: "2025-01", to: "2025-12" };
const REPORT = causesFilterSchema.parse(PERIOD);
const BEHIND = claimsBehindFilterSchema.parse(PERIOD);
const MONTHS = monthsFilterSchema.parse(PERIOD);
const TO_CLAIM = toClaimFilterSchema.parse(PERIOD);
const FORECAST = forecastFilterSchema.parse(PERIOD);
const NO_EDITION = 9999;
const NO_CHARGEBACK = { number: 999_999, version: 0 };
const READING = importReadingSchema("kits").parse({ delimiter: ",", dateOrder: "day-month-year", changed: "refuse" });
const TERMS: TermsForm = { validFrom: "2026-12-01", change: "More months", document: { period: { from: "shipment", months: 36, distanceKm: null, hours: null }, fitter: "anyone", lostBy: [], kits: [], countries: [] } };
const VERDICT = verdictSchema.parse({ primaryCause: "C01", origin: "fitter", basis: "customer_word", remedy: "advice", version: 0, rankingId: "" });

/** Every operation that a person of staff begins, with what it asks for and a call of it. */
const OPERATIONS: readonly (readonly [name: string, permission: Permission, call: (actor: StaffActor, target: Target) => Promise<{ ok: boolean }>])[] = [
  ["approveVerdict", "look a second time", (actor, { claimId }) => approveVerdict(actor, claimId, randomUUID())],
  ["askForCheck", "ask for a check", (actor, { claimId }) => askForCheck(actor, claimId, "F25", aForm({ note: "" }))],
  ["askForDryRun", "change the knowledge", (actor) => askForDryRun(actor, NO_EDITION)],
  ["askToLearn", "change the knowledge", (actor) => askToLearn(actor)],
  ["askToLook", "decide on signals", (actor) => askToLook(actor)],
  ["attachBenchPhoto", "inspect a unit", (actor, { claimId }) => attachBenchPhoto(actor, claimId, "rings", new Uint8Array())],
  ["beginChargeback", "write to a supplier", (actor) => beginChargeback(actor, { supplierId: randomUUID(), verdicts: [randomUUID()], batches: [] })],
  ["bookSupplierAnswers", "write to a supplier", (actor) => bookSupplierAnswers(actor, { ...NO_CHARGEBACK, amounts: {}, rest: "whole", note: "" })],
  ["closeChargeback", "write to a supplier", (actor) => closeChargeback(actor, NO_CHARGEBACK)],
  ["dropChargeback", "write to a supplier", (actor) => dropChargeback(actor, NO_CHARGEBACK)],
  ["exportChargeback", "write to a supplier", (actor) => exportChargeback(actor, NO_CHARGEBACK.number)],
  ["loadChargeback", "write to a supplier", (actor) => loadChargeback(actor, NO_CHARGEBACK.number)],
  ["loadChargebacks", "write to a supplier", (actor) => loadChargebacks(actor)],
  ["sendChargeback", "write to a supplier", (actor) => sendChargeback(actor, { ...NO_CHARGEBACK, days: 30, note: "" })],
  ["takeOutLine", "write to a supplier", (actor) => takeOutLine(actor, { ...NO_CHARGEBACK, lineId: randomUUID() })],
  ["decideDisposition", "inspect a unit", (actor, { claimId }) => decideDisposition(actor, claimId, { returnId: randomUUID(), kind: "scrapped", keepUntil: "", reason: "", seen: "" })],
  ["finishInspection", "inspect a unit", (actor, { claimId }) => finishInspection(actor, claimId, { note: "" })],
  ["loadDisposition", "inspect a unit", (actor, { claimId }) => loadDisposition(actor, claimId)],
  ["loadEvidence", "hand over a unit", (actor) => loadEvidence(actor)],
  ["loadInspection", "inspect a unit", (actor, { claimId }) => loadInspection(actor, claimId)],
  ["openInspection", "inspect a unit", (actor, { claimId }) => openInspection(actor, claimId)],
  ["howMuchArrivedAtBench", "inspect a unit", (actor, { claimId }) => howMuchArrivedAtBench(actor, claimId, randomUUID())],
  ["receiveBenchPiece", "inspect a unit", (actor, { claimId }) => receiveBenchPiece(actor, claimId, "rings", { uploadId: randomUUID(), bytes: 1, begin: 0, content: new Uint8Array(1) })],
  ["saveInspectionStep", "inspect a unit", (actor, { claimId }) => saveInspectionStep(actor, claimId, "rings", aForm({ F45: "present" }))],
  ["takeOverInspection", "inspect a unit", (actor, { claimId }) => takeOverInspection(actor, claimId)],
  ["authoriseReturn", "authorise a return", (actor, { claimId }) => authoriseReturn(actor, claimId, { version: 1, note: "" })],
  ["bookSettlement", "book a settlement", (actor, { claimId }) => bookSettlement(actor, claimId, { version: 1, bookingKey: randomUUID(), kind: "goodwill", amount: "10", note: "" })],
  ["changeReading", "bring in figures", (actor) => changeReading(actor, randomUUID(), READING)],
  ["changeRole", "manage people", (actor, { personId }) => changeRole(actor, personId, "product")],
  ["changeSettings", "change the settings", async (actor) => changeSettings(actor, await loadSettings(), "")],
  ["confirmVerdict", "confirm a verdict", (actor, { claimId }) => confirmVerdict(actor, claimId, VERDICT)],
  ["correctSerialSeen", "inspect a unit", (actor) => correctSerialSeen(actor, { returnId: randomUUID(), serialSeen: "" })],
  ["decideOnSignal", "decide on signals", (actor) => decideOnSignal(actor, randomUUID(), { act: "noted", note: "Seen", version: 0 })],
  ["discardEdition", "change the knowledge", (actor) => discardEdition(actor, NO_EDITION, { reason: "Not needed." })],
  ["disablePerson", "manage people", (actor, { personId }) => disablePerson(actor, personId)],
  ["draftTerms", "change the warranty terms", (actor) => draftTerms(actor)],
  ["dropTermsDraft", "change the warranty terms", (actor) => dropTermsDraft(actor, 9999)],
  ["endDeposit", "book a settlement", (actor, { claimId }) => endDeposit(actor, claimId, { bookingKey: randomUUID(), depositId: randomUUID(), end: "core_kept", note: "" })],
  ["exportBookings", "see reports", (actor) => exportBookings(actor, { ...PERIOD, table: "sums" })],
  ["keepTermsDraft", "change the warranty terms", (actor) => keepTermsDraft(actor, 9999, new Date(), TERMS)],
  ["loadBookings", "see reports", (actor) => loadBookings(actor, PERIOD)],
  ["loadVerdictMatter", "see a claim", (actor, { claimId }) => loadVerdictMatter(actor, claimId)],
  ["loadWarranty", "see a claim", (actor, { claimId }) => loadWarranty(actor, claimId)],
  ["loadWarrantyTerms", "see the warranty terms", (actor) => loadWarrantyTerms(actor)],
  ["makeLetterFile", "see the customer", (actor, { claimId }) => makeLetterFile(actor, claimId)],
  ["putDraftInForce", "change the warranty terms", (actor) => putDraftInForce(actor, 9999, new Date())],
  ["sendBackVerdict", "look a second time", (actor, { claimId }) => sendBackVerdict(actor, claimId, randomUUID(), { note: "Look at the drain." })],
  ["settleClaim", "book a settlement", (actor, { claimId }) => settleClaim(actor, claimId, { version: 1 })],
  ["takeBackVerdict", "look a second time", (actor, { claimId }) => takeBackVerdict(actor, claimId, randomUUID())],
  ["dropEditionDraft", "change the knowledge", (actor) => dropEditionDraft(actor, randomUUID())],
  ["enablePerson", "manage people", (actor, { personId }) => enablePerson(actor, personId)],
  ["exportCatalogue", "bring in figures", (actor) => exportCatalogue(actor, "kits")],
  ["exportCausesOfASelection", "see reports", (actor) => exportCausesOfASelection(actor, { ...PERIOD, table: "causes" })],
  ["exportCausesReport", "see reports", (actor) => exportCausesReport(actor, REPORT)],
  ["exportEdition", "see the knowledge", (actor) => exportEdition(actor, 1)],
  ["exportClaimsBehind", "see reports", (actor) => exportClaimsBehind(actor, BEHIND)],
  ["exportDeskQuality", "see reports", (actor) => exportDeskQuality(actor, deskFileSchema.parse(PERIOD))],
  ["exportForecast", "see reports", (actor) => exportForecast(actor, FORECAST)],
  ["exportImportProblems", "bring in figures", (actor) => exportImportProblems(actor, randomUUID())],
  ["exportMonthsReport", "see reports", (actor) => exportMonthsReport(actor, MONTHS)],
  ["exportSignals", "see reports", (actor) => exportSignals(actor, {})],
  ["exportTimeToClaim", "see reports", (actor) => exportTimeToClaim(actor, TO_CLAIM)],
  ["giveSecondOpinion", "confirm a verdict", (actor, { claimId }) => giveSecondOpinion(actor, claimId, { primaryCause: "C01", attribution: "fit" })],
  ["invitePerson", "manage people", (actor) => invitePerson(actor, { name: "Odo Farrier", email: `${randomUUID()}@shop.example`, role: "support" })],
  ["joinFitters", "change the catalogue", (actor) => joinFitters(actor, randomUUID(), randomUUID())],
  ["keepInCatalogue", "change the catalogue", (actor) => keepInCatalogue(actor, "fitters", randomUUID(), { name: "Garage", place: "" }, "")],
  ["removeFromCatalogue", "change the catalogue", (actor) => removeFromCatalogue(actor, "fitters", randomUUID())],
  ["loadCatalogue", "change the catalogue", (actor) => loadCatalogue(actor, "")],
  ["loadEntry", "change the catalogue", (actor) => loadEntry(actor, "kits", randomUUID())],
  ["loadKit", "change the catalogue", (actor) => loadKit(actor, randomUUID())],
  ["loadSupplier", "change the catalogue", (actor) => loadSupplier(actor, randomUUID())],
  ["loadTurboModel", "change the catalogue", (actor) => loadTurboModel(actor, randomUUID())],
  ["keepEdits", "change the knowledge", (actor) => keepEdits(actor, randomUUID(), {})],
  ["loadBlindClaim", "confirm a verdict", (actor, { claimId }) => loadBlindClaim(actor, claimId)],
  ["loadCausesOfASelection", "see reports", (actor) => loadCausesOfASelection(actor, PERIOD)],
  ["loadCausesReport", "see reports", (actor) => loadCausesReport(actor, REPORT)],
  ["loadClaim", "see a claim", (actor, { claimId }) => loadClaim(actor, claimId)],
  ["loadClaimsBehind", "see reports", (actor) => loadClaimsBehind(actor, BEHIND)],
  ["loadImport", "bring in figures", (actor) => loadImport(actor, randomUUID())],
  ["loadImports", "bring in figures", (actor) => loadImports(actor)],
  ["loadDeskQuality", "see reports", (actor) => loadDeskQuality(actor, PERIOD)],
  ["loadDeskClaims", "see reports", (actor) => loadDeskClaims(actor, { ...PERIOD, figure: "filed" }, { skip: 0, take: 1 })],
  ["loadEditionDraft", "change the knowledge", (actor) => loadEditionDraft(actor, randomUUID())],
  ["loadEditions", "see the knowledge", (actor) => loadEditions(actor)],
  ["loadForecast", "see reports", (actor) => loadForecast(actor, FORECAST)],
  ["loadKnowledge", "see the knowledge", (actor) => loadKnowledge(actor, 1)],
  ["loadLearning", "see the knowledge", (actor) => loadLearning(actor)],
  ["loadLetter", "see the customer", (actor, { claimId }) => loadLetter(actor, claimId)],
  ["loadMail", "see the mail", (actor) => loadMail(actor, randomUUID())],
  ["loadMails", "see the mail", (actor) => loadMails(actor)],
  ["loadMonthsReport", "see reports", (actor) => loadMonthsReport(actor, MONTHS)],
  ["loadPeople", "manage people", (actor) => loadPeople(actor)],
  ["loadQueue", "see the queue", (actor) => loadQueue(actor, queueFilterSchema.parse({}))],
  ["loadReportChoices", "see reports", (actor) => loadReportChoices(actor)],
  ["loadReturns", "hand over a unit", (actor) => loadReturns(actor)],
  ["loadReturnsOfClaim", "see a claim", (actor, { claimId }) => loadReturnsOfClaim(actor, claimId)],
  ["loadSecondOpinionOfClaim", "see a claim", (actor, { claimId }) => loadSecondOpinionOfClaim(actor, claimId)],
  ["loadSecondOpinions", "confirm a verdict", (actor) => loadSecondOpinions(actor)],
  ["loadSettingsToChange", "change the settings", (actor) => loadSettingsToChange(actor)],
  ["loadSettlements", "see a claim", (actor, { claimId }) => loadSettlements(actor, claimId)],
  ["loadSignal", "see reports", (actor) => loadSignal(actor, randomUUID())],
  ["loadSignals", "see reports", (actor) => loadSignals(actor, {})],
  ["loadTimeToClaim", "see reports", (actor) => loadTimeToClaim(actor, TO_CLAIM)],
  ["loadSupplierMatter", "write to a supplier", (actor) => loadSupplierMatter(actor, PERIOD)],
  ["loadTrial", "see the knowledge", (actor) => loadTrial(actor, randomUUID(), 1)],
  ["loadWaitingSignals", "see reports", (actor) => loadWaitingSignals(actor)],
  ["needNoAnswer", "write a message", (actor, { claimId }) => needNoAnswer(actor, claimId)],
  ["openImportFile", "bring in figures", (actor) => openImportFile(actor, randomUUID())],
  ["openEditionDraft", "change the knowledge", (actor) => openEditionDraft(actor, NO_EDITION)],
  ["previewVerdict", "confirm a verdict", (actor, { claimId }) => previewVerdict(actor, claimId, VERDICT)],
  ["promoteEdition", "change the knowledge", (actor) => promoteEdition(actor, NO_EDITION, { reason: "It leads better." })],
  ["proposeDraft", "change the knowledge", (actor) => proposeDraft(actor, randomUUID())],
  ["proposeEditionFile", "change the knowledge", (actor) => proposeEditionFile(actor, null, { basis: 1, why: "To try" })],
  ["proposeEdition", "change the knowledge", (actor) => proposeEdition(actor, { document: null, basis: 1, origin: "by_hand", why: "To try" })],
  ["rankAnew", "record a finding", (actor, { claimId }) => rankAnew(actor, claimId)],
  ["receiveReturn", "hand over a unit", (actor) => receiveReturn(actor, { returnId: randomUUID(), serialSeen: "" })],
  ["recordFinding", "record a finding", (actor, { claimId }) => recordFinding(actor, claimId, "F16", aForm({ F16: "absent", source: "technician", note: "" }))],
  ["reopenOnAppeal", "confirm a verdict", (actor, { claimId }) => reopenOnAppeal(actor, claimId, { reason: "A photo shows it otherwise." })],
  ["reverseSettlement", "book a settlement", (actor, { claimId }) => reverseSettlement(actor, claimId, { bookingKey: randomUUID(), settlementId: randomUUID(), note: "Booked twice." })],
  ["sendPasswordLink", "manage people", (actor, { personId }) => sendPasswordLink(actor, personId)],
  ["startImport", "bring in figures", (actor) => startImport(actor, randomUUID(), READING)],
  ["takeBackImport", "bring in figures", (actor) => takeBackImport(actor, randomUUID())],
  ["takeClaim", "record a finding", (actor, { claimId }) => takeClaim(actor, claimId, { from: null, to: actor.personId })],
  ["uploadImport", "bring in figures", (actor) => uploadImport(actor, { contentType: null, body: null })],
  ["withdrawCheck", "ask for a check", (actor, { claimId }) => withdrawCheck(actor, claimId, randomUUID())],
  ["writeStaffMessage", "write a message", (actor, { claimId }) => writeStaffMessage(actor, claimId, aForm({ body: "Thank you for the photo." }))],
  ["writeSupplierSummary", "write to a supplier", (actor) => writeSupplierSummary(actor, { ...PERIOD, paper: "A4", supplier: "", ask: "Look at it.", photos: [] })],
  ["actOnSeveral", "record a finding", (actor, { claimId }) => actOnSeveral(actor, "take", [claimId])],
  ["beInClaim", "see a claim", (actor, { claimId }) => beInClaim(actor, claimId)],
  ["fileCall", "file for a caller", (actor, { claimId }) => fileCall(actor, claimId, {})],
  ["holdLapse", "ask for a check", (actor, { claimId }) => holdLapse(actor, claimId, true)],
  ["keepFilter", "see the queue", (actor) => keepFilter(actor, { name: "Late", query: "mark=late" })],
  ["leaveClaim", "see a claim", (actor, { claimId }) => leaveClaim(actor, claimId)],
  ["loadBounce", "see a claim", (actor, { claimId }) => loadBounce(actor, claimId)],
  ["loadCall", "file for a caller", (actor, { claimId }) => loadCall(actor, claimId)],
  ["loadOpenCalls", "file for a caller", (actor) => loadOpenCalls(actor)],
  ["loadPlaceInQueue", "see the queue", (actor, { claimId }) => loadPlaceInQueue(actor, claimId, queueFilterSchema.parse({}))],
  ["loadQuietState", "see a claim", (actor, { claimId }) => loadQuietState(actor, claimId)],
  ["previewSeveral", "record a finding", (actor, { claimId }) => previewSeveral(actor, "take", [claimId])],
  ["remindNow", "ask for a check", (actor, { claimId }) => remindNow(actor, claimId)],
  ["removeFilter", "see the queue", (actor) => removeFilter(actor, randomUUID())],
  ["saveCall", "file for a caller", (actor, { claimId }) => saveCall(actor, claimId, {}, false)],
  ["sayReached", "write a message", (actor, { claimId }) => sayReached(actor, claimId)],
  ["searchForClaims", "search claims", (actor) => searchForClaims(actor, "drain")],
  ["startCall", "file for a caller", (actor) => startCall(actor, { number: "", language: "en", filingKey: randomUUID() })],
  ["startWithFilter", "see the queue", (actor) => startWithFilter(actor, null)],
  ["whoElseIsIn", "see a claim", (actor, { claimId }) => whoElseIsIn(actor, claimId)],
  ["dropMessageTemplate", "change message templates", (actor) => dropMessageTemplate(actor, { id: randomUUID(), version: 0 })],
  ["keepMessageTemplate", "change message templates", (actor) => keepMessageTemplate(actor, { id: randomUUID(), version: 0 }, { name: "One", english: "Thank you.", german: "Danke." })],
  ["linkClaims", "link or merge claims", (actor, { claimId }) => linkClaims(actor, claimId, { reference: "XXXX-XXX-XXX", why: "" })],
  ["loadCustomerHistory", "see the customer", (actor, { claimId }) => loadCustomerHistory(actor, claimId)],
  ["loadElsewhere", "see a claim", (actor, { claimId }) => loadElsewhere(actor, claimId)],
  ["loadFilledTemplate", "write a message", (actor, { claimId }) => loadFilledTemplate(actor, claimId, {})],
  ["loadJoinedClaims", "see a claim", (actor, { claimId }) => loadJoinedClaims(actor, claimId)],
  ["loadMarkedPhoto", "see a claim", (actor, { claimId }) => loadMarkedPhoto(actor, claimId, randomUUID())],
  ["loadMessageTemplates", "change message templates", (actor) => loadMessageTemplates(actor)],
  ["markPhoto", "mark a photo", (actor, { claimId }) => markPhoto(actor, claimId, randomUUID(), { x: 0.5, y: 0.5, word: "kinked" })],
  ["mergeClaim", "link or merge claims", (actor, { claimId }) => mergeClaim(actor, claimId, { into: "XXXX-XXX-XXX", version: 0 })],
  ["namePairUnit", "link or merge claims", (actor, { claimId }) => namePairUnit(actor, claimId, { pairUnit: "large", serial: "VT66L-1", otherSerial: "" })],
  ["removePhotoMark", "mark a photo", (actor, { claimId }) => removePhotoMark(actor, claimId, randomUUID())],
  ["takeApart", "link or merge claims", (actor, { claimId }) => takeApart(actor, claimId)],
  ["unlinkClaims", "link or merge claims", (actor, { claimId }) => unlinkClaims(actor, claimId, randomUUID())],
  ["addPlace", "change the settings", (actor) => addPlace(actor, { code: "DOOR", name: "Door", kind: "door", position: 1 })],
  ["closeParcel", "authorise a return", (actor) => closeParcel(actor, randomUUID(), { closing: "Sent back." })],
  ["giveUpReturn", "authorise a return", (actor, { claimId }) => giveUpReturn(actor, claimId, randomUUID())],
  ["handOver", "hand over a unit", (actor) => handOver(actor, { parcelId: randomUUID(), seen: 1, to: "SHELF-1", condition: null, note: "" })],
  ["loadPlaces", "change the settings", (actor) => loadPlaces(actor)],
  ["loadScanned", "hand over a unit", (actor) => loadScanned(actor, "")],
  ["matchParcel", "authorise a return", (actor) => matchParcel(actor, randomUUID(), { reference: "XXXX-XXX-XXX" })],
  ["prolongReturn", "authorise a return", (actor, { claimId }) => prolongReturn(actor, claimId, { days: 7 })],
  ["recordCarriage", "authorise a return", (actor, { claimId }) => recordCarriage(actor, claimId, new FormData())],
  ["retirePlace", "change the settings", (actor) => retirePlace(actor, "NOWHERE", true)],
  ["setUnitAside", "authorise a return", (actor) => setUnitAside(actor, { returnId: randomUUID(), note: "Another unit." })],
  ["takeForSameUnit", "authorise a return", (actor) => takeForSameUnit(actor, { returnId: randomUUID(), note: "The plate was changed." })],
  ["takeInParcel", "hand over a unit", (actor) => takeInParcel(actor, { id: randomUUID(), returnNumber: "", reason: "no_number", holds: "A turbocharger", serial: "", sender: "", condition: null, note: "" })],
  ["writeDeskNote", "read and write notes", (actor, { claimId }) => writeDeskNote(actor, claimId, aForm({ deskNote: "The garage called." }))],
];

const actors = new Map<Role, StaffActor>();
let target: Target;

beforeAll(async () => {
  for (const role of ROLES) actors.set(role, await aStaffActor(role));
  target = { claimId: (await aFiledClaim()).claimId, personId: (await aPerson()).id };
});

function actorOf(role: Role): StaffActor {
  const actor = actors.get(role);
  if (!actor) throw new Error(`nobody is ${role}`);
  return actor;
}

const PAIRS = OPERATIONS.flatMap(([name, permission, call]) => ROLES.map((role) => ({ name, permission, call, role })));

describe("a role that may not", () => {
  test.each(PAIRS.filter(({ role, permission }) => !may(role, permission)))("$role is refused $name, and it is recorded", async ({ role, permission, call }) => {
    const actor = actorOf(role);
    const before = await database().claim.findUniqueOrThrow({ where: { id: target.claimId } });
    const refusals = () => database().auditEntry.count({ where: { personId: actor.personId, action: "refused", detail: { path: ["permission"], equals: permission } } });
    const recorded = await refusals();
    expect(await call(actor, target)).toEqual({ ok: false, reason: "not-allowed" });
    expect(await refusals()).toBe(recorded + 1);
    expect(await database().claim.findUniqueOrThrow({ where: { id: target.claimId } })).toEqual(before);
  });
});

describe("a role that may", () => {
  test.each(PAIRS.filter(({ role, permission }) => may(role, permission)))("$role is let to $name", async ({ role, call }) => {
    // What is asked for may still not be there; it is never a question of rights.
    expect(await call(actorOf(role), target)).not.toMatchObject({ reason: "not-allowed" });
  });
});

test("a claim that does not exist is refused to the wrong role like any other", async () => {
  expect(await confirmVerdict(actorOf("bench"), randomUUID(), VERDICT)).toEqual({ ok: false, reason: "not-allowed" });
});

test("no operation of staff is left out", () => {
  const folder = path.resolve(import.meta.dirname, "../../lib/operations");
  const begun = readdirSync(folder).flatMap((file) => [...readFileSync(path.join(folder, file), "utf8").matchAll(/export (?:async )?function (\w+)(?:<.*>)?\(\s*actor: StaffActor/g)].map(([, name]) => name));
  expect(begun.filter((name) => name !== "refuse").sort()).toEqual(OPERATIONS.map(([name]) => name).sort());
});
