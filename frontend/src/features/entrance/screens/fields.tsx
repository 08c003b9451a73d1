/** The three boxes every way in has: name, e-mail, password. */
import { TextField } from "../../../ui/parts";
import type { Problems } from "./submit";

interface Box {
  value: string;
  onInput: (text: string) => void;
  problems: Problems;
}

export function NameField({ value, onInput, problems }: Box) {
  return (
    <TextField
      label="Your name"
      autocomplete="name"
      maxLength={60}
      value={value}
      onInput={onInput}
      error={problems["name"]}
    />
  );
}

export function EmailField({ value, onInput, problems }: Box) {
  return (
    <TextField
      label="E-mail"
      type="email"
      autocomplete="username"
      value={value}
      onInput={onInput}
      error={problems["email"]}
    />
  );
}

const CHOOSING = "Use a few words you will remember. 10 characters or more.";

/** `chosen`: a password made here and now, not one the person already has. */
export function PasswordField({ value, onInput, problems, chosen }: Box & { chosen: boolean }) {
  return (
    <TextField
      label="Password"
      type="password"
      autocomplete={chosen ? "new-password" : "current-password"}
      {...(chosen ? { hint: CHOOSING } : {})}
      value={value}
      onInput={onInput}
      error={problems["password"]}
    />
  );
}
