// A field for one line of text. Enter or leaving takes it, Escape puts back what was there.

import { useId, useState } from 'react';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly disabled?: boolean;
  readonly onSet: (value: string) => void;
}

export function TextField({ label, value, placeholder, disabled, onSet }: TextFieldProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const take = (): void => {
    if (typed !== null && typed !== value) onSet(typed);
    setTyped(null);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="field-input">
        <input
          id={id}
          type="text"
          maxLength={200}
          disabled={disabled}
          value={typed ?? value}
          placeholder={placeholder}
          onChange={({ target }) => setTyped(target.value)}
          onBlur={take}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
            if (event.key === 'Escape' && typed !== null) {
              // A dialog round it stays open.
              event.preventDefault();
              event.stopPropagation();
              setTyped(null);
            }
          }}
        />
      </span>
    </div>
  );
}
