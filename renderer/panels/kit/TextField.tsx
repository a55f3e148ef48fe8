// A field for one line of text. Enter or leaving takes it, Escape puts back what was there.

import { useId } from 'react';
import { useTyped } from './use-typed.ts';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly disabled?: boolean;
  readonly onSet: (value: string) => void;
}

export function TextField({ label, value, placeholder, disabled, onSet }: TextFieldProps) {
  const id = useId();
  const { typed, input } = useTyped((text) => {
    if (text !== value) onSet(text);
    return null;
  });
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
          {...input}
        />
      </span>
    </div>
  );
}
