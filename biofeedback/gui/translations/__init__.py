"""The catalogue of the interface: what is said, and how it is said in other languages.

    python -m biofeedback.gui.translations

collects each text from the code into the `.ts` files beside this module, keeps what is
translated, and makes the `.qm` files that ship. What has no translation yet is listed,
and is to be written into the `.ts` file by hand or with Qt Linguist.
"""
