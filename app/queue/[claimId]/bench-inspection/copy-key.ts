/** Names what is typed about the unit of one claim in the copy kept on the device. */
export const inspectionCopyKey = (claimId: string) => `inspection.${claimId}`;
