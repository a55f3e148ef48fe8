// What is wanted of the window's own file dialog: a plan to open, or a place and a name to write to.

export type PutAnswer =
  | { readonly done: true }
  /** A file of that name is there: asked once, then written over. */
  | { readonly exists: string }
  | { readonly message: string };

export type PlaceWish =
  | {
      readonly kind: 'open';
      readonly title: string;
      /** A plan was chosen. A sentence where it cannot be opened; null where it is done. */
      open(id: string): Promise<string | null>;
    }
  | {
      readonly kind: 'save';
      readonly title: string;
      readonly name: string;
      /** Put behind a name that has it not; empty for a folder. */
      readonly ending: string;
      put(place: string, name: string, over: boolean): Promise<PutAnswer>;
    };
