// The heads of a table's columns. Columns of figures are set to the right, as their cells are.

export type Head = string | { readonly figure: string };

export function Heads({ of }: { readonly of: readonly Head[] }) {
  return (
    <thead>
      <tr>
        {of.map((head) =>
          typeof head === 'string' ? (
            <th key={head} scope="col">
              {head}
            </th>
          ) : (
            <th key={head.figure} scope="col" className="figure">
              {head.figure}
            </th>
          ),
        )}
      </tr>
    </thead>
  );
}
