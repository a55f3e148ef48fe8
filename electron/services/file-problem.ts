// What went wrong with a file, as one sentence that names it and says what would be right.

/** A file that could not be read or written. `message` is one sentence that starts with the file's path. */
export class FileProblem extends Error {
  readonly path: string;
  /** The sentence without the path and the full stop, for where no path may be shown. */
  readonly what: string;
  /** The system's code, such as `ENOSPC`; null where the sentence is our own. */
  readonly code: string | null;

  constructor(path: string, what: string, code: string | null = null) {
    super(`${path} ${what}.`);
    this.name = 'FileProblem';
    this.path = path;
    this.what = what;
    this.code = code;
  }
}

const SENTENCES: Readonly<Record<string, string>> = {
  ENOENT: 'is not there; check the name and the folder',
  EISDIR: 'is a folder; name a file',
  ENOTDIR: 'lies in something that is not a folder; check the path',
  EACCES: 'may not be used by this account; choose a place you may write to, or ask for permission',
  EPERM: 'may not be used by this account; choose a place you may write to, or ask for permission',
  EROFS: 'is on a read-only disk; choose another place',
  ENOSPC: 'does not fit: the disk is full; free some space or choose another disk',
  EDQUOT: 'does not fit: the disk quota is used up; free some space or choose another disk',
  EFBIG: 'is larger than this disk allows; choose another disk',
  ENAMETOOLONG: 'has too long a name; choose a shorter one',
  EEXIST: 'is in the way; choose another name',
  ELOOP: 'is a link that leads to itself; name the file itself',
  EMFILE: 'could not be opened: too many files are open; close some programs and try again',
  EBUSY: 'is in use by another program; close it there and try again',
  ETXTBSY: 'is in use by another program; close it there and try again',
  ENODEV: 'lies on a disk that is gone; connect it again or choose another place',
  ENXIO: 'lies on a disk that is gone; connect it again or choose another place',
  ESTALE: 'lies on a disk that is gone; connect it again or choose another place',
  EIO: 'could not be used: the disk reports an error; choose another disk',
};

/** Any error to a `FileProblem` with a sentence for `path`. */
export function fileProblem(path: string, error: unknown, doing: 'read' | 'write'): FileProblem {
  if (error instanceof FileProblem) return error;
  const code = (error as NodeJS.ErrnoException | null)?.code;
  const known = code === undefined ? undefined : SENTENCES[code];
  return new FileProblem(
    path,
    known ??
      `could not be ${doing === 'read' ? 'read' : 'written'} (${code ?? oneLine(error)}); try another place`,
    code ?? null,
  );
}

function oneLine(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.replace(/\s+/g, ' ').slice(0, 200);
}
