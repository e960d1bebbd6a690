/** A photo is sent in pieces of so many bytes, the last one smaller: what has arrived need not be sent again. */
export const PIECE_BYTES = 128 * 1024;

/**
 * How long the piece is that begins after so many bytes.
 *
 * Example: of 300,000 bytes, after 262,144 of them: 37,856.
 */
export function pieceLength(bytes: number, received: number): number {
  return Math.min(PIECE_BYTES, bytes - received);
}
