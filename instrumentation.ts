export { onRequestError, register } from "@/lib/error-log";
