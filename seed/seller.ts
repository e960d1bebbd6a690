/** The seller of the demo. The place is invented, as is everything sold there. */
export const SELLER = {
  name: "Brackenhalt Turbo Supply",
  return_address: "Brackenhalt Turbo Supply\nReturns bench, Hall 3\nSlipway Lane 14\n40917 Brackenhalt",
  email: "desk@brackenhalt.example",
  phone: "+00 555 0142",
  currency: "EUR",
  time_zone: "Europe/Berlin",
  working_days: [1, 2, 3, 4, 5],
  opens_at: "08:00",
  closes_at: "17:00",
  promised_answer_hours: 8,
  return_within_days: 21,
} as const;
