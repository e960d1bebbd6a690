-- Serials are looked up by letters and digits alone (lib/data/purchases.ts). Not unique: two may differ by a hyphen.
CREATE INDEX "unit_serial_bare_idx" ON "unit" (regexp_replace(upper("serial"), '[^[:alnum:]]', '', 'g'));
