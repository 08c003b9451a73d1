/** Moves the focus to the first field that is marked wrong, once the marks are drawn; nowhere where none is. */
export function focusFirstWrong(form: HTMLElement | null): void {
  setTimeout(() => {
    const field = form?.querySelector<HTMLElement>("[aria-invalid='true']");
    const input = field?.matches("fieldset") ? field.querySelector<HTMLElement>("input") : field;
    input?.focus();
  }, 0);
}
