// What is printed is for whoever started the program.

/**
 * Whoever read what is printed may be gone: the terminal, a pipe that had enough. The second line after that is an error of
 * the stream, which would end the program with the plans that are open in it.
 */
export function goOnUnread(): void {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);
}
