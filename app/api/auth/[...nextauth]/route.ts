import NextAuth from "next-auth";
import { authOptions } from "@/lib/access/auth-options";

const handler = NextAuth(authOptions);

export { handler as GET, handler as POST };
