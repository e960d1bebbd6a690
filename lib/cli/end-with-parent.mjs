// Loaded into services by NODE_OPTIONS: when the process that started them is gone, even by kill -9, they end too.
// Otherwise an orphan would hold the port, and run jobs beside the next start.
if (process.channel) {
  process.once("disconnect", () => {
    process.kill(process.pid, "SIGTERM");
    setTimeout(() => process.exit(1), 5000).unref();
  });
}
