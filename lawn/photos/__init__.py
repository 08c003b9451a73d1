"""The photo store: the full pictures of a household, as files named by their content.

    DATA_DIR/photos/<household id>/<first two digits>/<sha256>     a whole picture, checked; never changed
    DATA_DIR/photos/<household id>/partial/<sha256>.<bytes>        what has come of a picture so far

A picture's name is the SHA-256 of its bytes, so a copy of the folder is right when each file's hash is its name
(`lawn.photos.stock`). A file appears under its name by one rename, after its bytes are on the disk: whoever copies the
folder while the server runs takes whole pictures only. Partial files may be left out of a copy: the phone goes on from
what the server has. What a picture shows and who took it stands in the book (`lawn.models.Photo`).
"""
