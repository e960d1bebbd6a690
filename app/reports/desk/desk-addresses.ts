import type { DeskFigure } from "@/lib/domain/reporting/desk-quality";
import { address, type Parameters } from "../addresses";

/** Quality of the desk. */
export const deskAddress = (parameters: Parameters) => address("/reports/desk", parameters);
/** The claims that one of its figures counts. */
export const deskClaimsAddress = (figure: DeskFigure, parameters: Parameters) => address("/reports/desk/claims", { ...parameters, figure });
/** One of its tables as a file. */
export const deskFileAddress = (table: "figures" | "pairs" | "overrules" | "claims", parameters: Parameters) => address("/api/reports/desk", { ...parameters, table });
