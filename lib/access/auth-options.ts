import "server-only";
import type { NextAuthOptions } from "next-auth";
import { deleteStaffSession, findStaffSession } from "@/lib/data/staff-sessions";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { hashSecret } from "./secrets";

/** A working day; after that staff sign in again. */
export const SESSION_SECONDS = 12 * 60 * 60;

const secure = env.APP_ORIGIN.startsWith("https:");

/** Name of the session cookie; the `__Host-` prefix needs https. */
export const SESSION_COOKIE = secure ? "__Host-fit-or-fault.session" : "fit-or-fault.session";

export const SESSION_COOKIE_OPTIONS = { httpOnly: true, sameSite: "lax", path: "/", secure } as const;

/**
 * next-auth reads our sessions. Signing in and out are our own operations, which insert and delete the session row,
 * because next-auth's password provider cannot keep sessions in a database; so none of its routes is served. The adapter
 * is ours too: the stock one keeps session tokens unhashed.
 */
export const authOptions: NextAuthOptions = {
  secret: env.NEXTAUTH_SECRET,
  providers: [],
  session: { strategy: "database", maxAge: SESSION_SECONDS, updateAge: SESSION_SECONDS },
  cookies: { sessionToken: { name: SESSION_COOKIE, options: SESSION_COOKIE_OPTIONS } },
  adapter: {
    async getSessionAndUser(token) {
      const session = await findStaffSession(hashSecret(token), new Date());
      if (!session) return null;
      const { person } = session;
      return {
        session: { sessionToken: token, userId: person.id, expires: session.expiresAt },
        user: { id: person.id, email: person.email, name: person.name, emailVerified: null, role: person.role },
      };
    },
    async updateSession() {
      return null;
    },
    async deleteSession(token) {
      await deleteStaffSession(hashSecret(token));
    },
  },
  // One JSON line an event, as all the log. Its warnings are about routes that are not served.
  logger: { error: (code) => log.error({ event: "session-not-read", code }), warn: () => {} },
  callbacks: {
    session({ session, user }) {
      return { expires: session.expires, user: { id: user.id, name: user.name ?? "", role: user.role } };
    },
  },
};
