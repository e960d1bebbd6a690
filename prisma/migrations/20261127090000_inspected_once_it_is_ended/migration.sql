-- A unit counts as inspected once its inspection is ended.
DROP TRIGGER "inspection_marks_its_claim" ON "bench_inspection";
CREATE TRIGGER "inspection_marks_its_claim" AFTER INSERT OR DELETE OR UPDATE OF "inspected_at" ON "bench_inspection" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_inspection"();

-- What was counted otherwise is counted anew: units on the bench, what was booked and reversed, and fittings before the shipping.
INSERT INTO report_mark (claim_id)
  SELECT t.claim_id FROM return AS t JOIN bench_inspection AS b ON b.return_id = t.id WHERE b.inspected_at IS NULL
  UNION SELECT claim_id FROM settlement WHERE reverses_id IS NOT NULL
  UNION SELECT c.id FROM claim AS c JOIN shipment AS s ON s.id = c.shipment_id WHERE c.stage <> 'draft' AND c.fitted_on < s.shipped_on;
