# Completion of haylane-desk in bash: ranch books, and folders on the way to them.
complete -o plusdirs -f -X '!*.gpkg' haylane-desk
