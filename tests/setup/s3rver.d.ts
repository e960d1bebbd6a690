/** The part of s3rver, which brings no types, that the tests use. */
declare module "s3rver" {
  export default class S3rver {
    constructor(options: { address: string; port: number; directory: string; silent: boolean; configureBuckets: readonly { name: string }[] });
    run(): Promise<{ port: number }>;
    close(): Promise<void>;
  }
}
